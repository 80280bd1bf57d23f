using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Board;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Board.Work;

/// <summary>One piece of open work: give it to somebody, tick it off, skip it with a reason.</summary>
public sealed partial class TaskItem
{
    private string? _fault;

    // The one "Done" then is the one below what was typed.
    private bool _isTellingWhatWasFound;

    [Parameter, EditorRequired]
    public required BoardTask Task { get; set; }

    [Parameter, EditorRequired]
    public required string SumpTag { get; set; }

    [Parameter, EditorRequired]
    public required IReadOnlyList<BoardPerson> People { get; set; }

    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    [Parameter, EditorRequired]
    public required DateTime NowUtc { get; set; }

    [Parameter, EditorRequired]
    public required bool MayAct { get; set; }

    [Parameter, EditorRequired]
    public required EventCallback Changed { get; set; }

    [Inject]
    public required WorkActs Acts { get; init; }

    private bool IsAnsweredByAdding => Task.Kind == TaskKind.Adjust;

    // Work is handed on when a flag gives way to a worse one: how late it is counts from when it was first asked for, so that is said.
    private string Source => Task is { IsOfPlan: true, Why: { } why } ? Words.Format.Say(Texts.Board_FromPlanWhy, Words.Sentences.WhyThen(why))
        : Task.IsOfPlan ? Texts.Board_FromPlan
        : Task.Kind == TaskKind.ReadSlide ? Words.Format.Say(Texts.Board_FromSlide, Words.Format.When(Task.AskedAtUtc, NowUtc))
        : Words.Format.Say(Task.IsAlsoOfPlan ? Texts.Board_FromFlagAndPlan : Texts.Board_FromFlag, CauseWord, Words.Format.When(Task.AskedAtUtc, NowUtc));

    private string CauseWord => Words.Sentences.SubjectOfCause(Task.Cause);

    private async System.Threading.Tasks.Task AssignAsync(ChangeEventArgs e) =>
        await TellAsync(await Acts.AssignAsync(Task.Id, Guid.TryParse(e.Value as string, out var id) ? id : null, Words.Sentences, CancellationToken.None));

    private async System.Threading.Tasks.Task DoneAsync() => await TellAsync(await Acts.DoneAsync(Task.Id, null, Words.Sentences, CancellationToken.None));

    private async System.Threading.Tasks.Task<string?> FoundAsync(TypedFind found) => await AnswerAsync(await Acts.DoneAsync(Task.Id, found, Words.Sentences, CancellationToken.None));

    private async System.Threading.Tasks.Task<string?> SkipAsync(string reason) => await AnswerAsync(await Acts.SkipAsync(Task.Id, reason, Words.Sentences, CancellationToken.None));

    private async System.Threading.Tasks.Task<string?> AnswerAsync(string? fault)
    {
        if (fault is null)
        {
            await Changed.InvokeAsync();
        }

        return fault;
    }

    private async System.Threading.Tasks.Task TellAsync(string? fault)
    {
        _fault = fault;
        if (fault is null)
        {
            await Changed.InvokeAsync();
        }
    }
}
