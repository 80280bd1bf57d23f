using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Board.Work;

namespace ShopFluids.Web.Pages.Board.Several;

/// <summary>Gives, re-dates or skips all work that is ticked: an act for each, so that what one refuses keeps none of the others.</summary>
public sealed partial class SeveralBar
{
    private IReadOnlyList<RefusedTask> _refused = [];
    private string _person = "";
    private string _day = "";
    private string _said = "";

    [Parameter, EditorRequired]
    public required IReadOnlyList<TickedTask> Ticked { get; set; }

    [Parameter, EditorRequired]
    public required IReadOnlyList<BoardPerson> People { get; set; }

    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    /// <summary>Something was done; what is still ticked is what was refused.</summary>
    [Parameter, EditorRequired]
    public required EventCallback<IReadOnlyList<TickedTask>> Changed { get; set; }

    /// <summary>Takes every tick away.</summary>
    [Parameter, EditorRequired]
    public required EventCallback Close { get; set; }

    [Inject]
    public required WorkActs Acts { get; init; }

    private string Title => Ticked.Count switch
    {
        0 => Texts.Board_TickedNone,
        1 => Texts.Board_TickedOne,
        var count => Words.Format.Say(Texts.Board_Ticked, Words.Format.Count(count)),
    };

    private static string Text(ChangeEventArgs e) => e.Value as string ?? "";

    private Task<string?> AssignAsync() =>
        EachAsync(t => Acts.AssignAsync(t.Id, Guid.TryParse(_person, out var id) ? id : null, Words.Sentences, CancellationToken.None));

    private Task<string?> SkipAsync(string reason) => EachAsync(t => Acts.SkipAsync(t.Id, reason, Words.Sentences, CancellationToken.None));

    // Work may be put on a closed day, but not unawares.
    private string? ClosedDay => DayInput.TryRead(_day, out var day) && !Words.Format.Calendar.IsOpen(day) ? Words.Format.Say(Texts.Board_ClosedDay, Words.Format.LongDay(day)) : null;

    private async Task<string?> RedateAsync(string reason) => DayInput.TryRead(_day, out var day)
        ? await EachAsync(t => Acts.RedateAsync(t.Id, day, reason, Words.Sentences, CancellationToken.None))
        : Texts.Board_RedateDay;

    /// <returns>Why nothing at all was done; null as soon as something was.</returns>
    private async Task<string?> EachAsync(Func<TickedTask, Task<string?>> act)
    {
        var (ticked, refused) = (Ticked, new List<RefusedTask>());
        foreach (var task in ticked)
        {
            if (await act(task) is { } why)
            {
                refused.Add(new(task, why));
            }
        }

        var done = ticked.Count - refused.Count;
        _refused = refused;
        _said = Words.Format.Say(Texts.Board_DoneOf, Words.Format.Count(done), Words.Format.Count(ticked.Count));
        await Changed.InvokeAsync([.. refused.Select(r => r.Task)]);
        return done == 0 ? Texts.Board_NoneDone : null;
    }
}
