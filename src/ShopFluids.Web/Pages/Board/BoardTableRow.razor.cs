using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using MudBlazor;
using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Board.Several;
using ShopFluids.Web.Pages.Board.Work;

namespace ShopFluids.Web.Pages.Board;

public sealed partial class BoardTableRow
{
    private const int MostReasons = 3;
    private const int MostTasks = 4;
    private ElementReference _button;
    private bool _focusButton;

    [Parameter, EditorRequired]
    public required BoardRow Row { get; set; }

    [Parameter, EditorRequired]
    public required ShopBoard Board { get; set; }

    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    [Parameter, EditorRequired]
    public required bool MayAct { get; set; }

    [Parameter, EditorRequired]
    public required EventCallback Changed { get; set; }

    /// <summary>The ids of tasks that are ticked.</summary>
    [Parameter, EditorRequired]
    public required IReadOnlySet<Guid> Ticked { get; set; }

    /// <summary>A task was ticked, or its tick was taken away.</summary>
    [Parameter, EditorRequired]
    public required EventCallback<(TickedTask Task, bool IsTicked)> Tick { get; set; }

    [Inject]
    public required IDialogService Dialogs { get; init; }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_focusButton)
        {
            _focusButton = false;
            await _button.FocusAsync();
        }
    }

    private string RowClass => Components.Shared.VerdictLook.CssClass(Row.Standing.Verdict, Row.Standing.IsLate);

    private string Served => Words.Format.Served(Row);

    private IEnumerable<string> Reasons
    {
        get
        {
            if (Row.FilledAtUtc is not { } filled)
            {
                return [Texts.Board_StandsEmpty];
            }

            if (Row.Flags.Count > 0)
            {
                var shown = Row.Flags.Take(MostReasons).Select(f => Words.Sentences.FlagNow(f));
                return Row.Flags.Count > MostReasons ? shown.Append(MoreFlags) : shown;
            }

            return Row.LastReadAtUtc is { } read
                ? [Words.Format.Say(Texts.Board_LastRead, Words.Format.Ago(read, Board.AtUtc))]
                : [Words.Format.Say(Texts.Board_FilledNotRead, Words.Format.When(filled, Board.AtUtc))];
        }
    }

    private string MoreFlags => Row.Flags.Count == MostReasons + 1 ? Texts.Board_OneMoreFlag : Words.Format.Say(Texts.Board_MoreFlags, Words.Format.Count(Row.Flags.Count - MostReasons));

    // The strip shows the rest. What is done in one visit stands together, also what could wait by itself.
    // The earliest due first, so that what is left out is not what is latest; a visit has its own order.
    private List<BoardTask> Pressing
    {
        get
        {
            var days = Row.Visits.Where(v => v.Tasks.Any(t => t.IsPressing(Board.Days[0].Day))).Select(v => v.Day).ToHashSet();
            return [.. Row.Tasks.Where(t => days.Contains(t.VisitDay)).OrderBy(t => t.VisitDay)];
        }
    }

    private IReadOnlyList<BoardVisit> ToDo => BoardVisit.Of(Pressing.Take(MostTasks));

    private int Hidden => Pressing.Count - MostTasks;

    private string? VisitWords(BoardVisit shown) => VisitWord.Of(Row.Visits.First(v => v.Day == shown.Day), Words.Format, Board.AtUtc);

    private List<string> Names => [.. Row.Tasks.Where(t => t.Who is not null).Select(t => t.Who?.Name ?? "").Distinct(StringComparer.Ordinal)];

    // Where some of it is somebody's, the rest would look as if it were.
    private int ToNobody => Names.Count == 0 ? 0 : Pressing.Count(t => t.Who is null);

    private string WordsOf(BoardTask task) => Words.Sentences.Task(task.Kind, task.Cause, task.Recipe);

    private Task TickAsync(BoardTask task, ChangeEventArgs e) => Tick.InvokeAsync((new(task.Id, Row.Tag, WordsOf(task)), e.Value is true));

    private string Who => Names.Count == 0 ? Texts.Board_SeeToIt : string.Join(", ", Names);

    private async Task OpenAsync(MouseEventArgs e)
    {
        var dialog = await Dialogs.ShowAsync<WorkDialog>(
            Words.Format.Say(Texts.Board_DialogTitle, Row.Tag),
            new DialogParameters<WorkDialog> { { d => d.Row, Row }, { d => d.People, Board.People }, { d => d.Words, Words } });
        await dialog.Result;
        await Changed.InvokeAsync();

        // Once the board is drawn anew: with its last work done, the row is not in it any more, and its button neither.
        _focusButton = true;
    }
}
