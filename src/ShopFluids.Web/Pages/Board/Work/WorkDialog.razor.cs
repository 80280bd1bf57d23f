using Microsoft.AspNetCore.Components;
using MudBlazor;
using ShopFluids.Core.Board;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Board.Work;

/// <summary>All open flags and work of one sump, to be given out, ticked off or closed.</summary>
public sealed partial class WorkDialog
{
    private IReadOnlyList<BoardFlag> _flags = [];
    private IReadOnlyList<BoardTask> _tasks = [];
    private string _said = "";
    private bool _showsLater;
    private bool _movesFocus;
    private ElementReference _saidAt;

    [CascadingParameter]
    public required IMudDialogInstance Dialog { get; set; }

    [Parameter, EditorRequired]
    public required BoardRow Row { get; set; }

    [Parameter, EditorRequired]
    public required IReadOnlyList<BoardPerson> People { get; set; }

    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    [Inject]
    public required OpenWorkQuery Query { get; init; }

    [Inject]
    public required ShopClock Clock { get; init; }

    private List<BoardTask> Pressing => [.. BoardVisit.Of(_tasks).Where(v => v.Tasks.Any(t => t.IsPressing(Words.Format.Calendar.ShopDayOf(Now)))).SelectMany(v => v.Tasks)];

    private DateTime Now => Clock.UtcNow;

    protected override void OnInitialized() => (_flags, _tasks) = (Row.Flags, Row.Tasks);

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_movesFocus)
        {
            _movesFocus = false;
            await _saidAt.FocusAsync();
        }
    }

    private async Task ReloadAsync()
    {
        var shown = _flags.Select(f => f.Id).Concat(_tasks.Select(t => t.Id)).ToList();
        (_flags, _tasks) = await Query.RunAsync(Row.SumpId, CancellationToken.None);
        _said = Texts.Board_Saved;

        // What goes away takes the focus with it, out of the dialog: no key would close it any more.
        _movesFocus = shown.Except(_flags.Select(f => f.Id).Concat(_tasks.Select(t => t.Id))).Any();
    }
}
