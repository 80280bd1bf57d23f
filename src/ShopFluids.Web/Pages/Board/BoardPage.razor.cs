using System.Data.Common;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Board;
using ShopFluids.Core.Live;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Components.Shared.Loading;
using ShopFluids.Web.Pages.Board.Several;

namespace ShopFluids.Web.Pages.Board;

/// <summary>Everything open, in the order in which it needs somebody; looks again by itself.</summary>
public sealed partial class BoardPage : IDisposable
{
    // The worst come first, and nobody reads hundreds: the others wait for a press, so that the first are there at once, the next as soon as a press is seen, and an
    // open board stays small.
    private const int RowsAtATime = 25;

    // Of these all that is told fits on a line for ten.
    private const int QuietAtATime = 200;

    private readonly CancellationTokenSource _leaving = new();
    private Load<BoardView> _view = new Load<BoardView>.Loading();
    private LiveLook? _live;
    private bool _mayAct;
    private bool _isStale;
    private IReadOnlyList<TickedTask> _ticked = [];
    private bool _showsSeveral;
    private int _rowsShown = RowsAtATime;
    private int _quietShown = QuietAtATime;
    private Func<ElementReference>? _nextFocus;
    private ElementReference _more;
    private ElementReference _fewer;
    private ElementReference _quietTitle;
    private bool _isAhead;

    [Inject]
    public required BoardQuery Query { get; init; }

    [Inject]
    public required DeskSession Session { get; init; }

    [Inject]
    public required ShopNews News { get; init; }

    [Inject]
    public required TimeProvider Time { get; init; }

    [Inject]
    public required NavigationManager Navigation { get; init; }

    [Inject]
    public required Handover Handover { get; init; }

    /// <summary>For what the page was drawn with ahead.</summary>
    [PersistentState(RestoreBehavior = RestoreBehavior.SkipLastSnapshot)]
    public string? Ticket { get; set; }

    [SupplyParameterFromQuery(Name = "area")]
    public string? AreaText { get; set; }

    [SupplyParameterFromQuery(Name = "person")]
    public string? PersonText { get; set; }

    [SupplyParameterFromQuery(Name = "kind")]
    public string? KindText { get; set; }

    [SupplyParameterFromQuery(Name = "show")]
    public string? ShowText { get; set; }

    /// <summary>The filter lives in the address, so that it can be kept and sent.</summary>
    private BoardFilter Filter => new(
        Guid.TryParse(AreaText, out var area) ? area : null,
        Guid.TryParse(PersonText, out var person) ? person : null,
        Named<TaskKind>(KindText),
        Named<SumpState>(ShowText));

    public void Dispose()
    {
        _live?.Dispose();
        _leaving.Cancel();
        _leaving.Dispose();
    }

    protected override void OnInitialized()
    {
        if (Handover.Take<Ahead>(Ticket) is { } ahead)
        {
            (_view, _mayAct, _isAhead) = (new Load<BoardView>.Loaded(ahead.View), ahead.MayAct, true);
        }
    }

    protected override async Task OnParametersSetAsync()
    {
        if (!_isAhead)
        {
            await LoadAsync();
        }

        if (!RendererInfo.IsInteractive && _view is Load<BoardView>.Loaded { Value: var drawn })
        {
            Ticket = Handover.Leave(new Ahead(drawn, _mayAct));
        }
    }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_nextFocus is { } next)
        {
            _nextFocus = null;
            await next().FocusAsync(preventScroll: true);
        }

        if (!firstRender)
        {
            return;
        }

        _live = new LiveLook(News, Time, _ => true, () => _ = InvokeAsync(LookAgainAsync));
        if (_isAhead)
        {
            // What came between the drawing and the listening was heard by nobody.
            _isAhead = false;
            await LookAgainAsync();
        }
    }

    private async Task LoadAsync()
    {
        if (_view is not Load<BoardView>.Loaded)
        {
            _view = new Load<BoardView>.Loading();
        }

        await RefreshAsync();
    }

    /// <summary>Reads anew; what is shown stays until there is something newer.</summary>
    private async Task RefreshAsync()
    {
        try
        {
            _mayAct = await Session.MayAsync(Policies.CanSupervise);
            var board = await Query.RunAsync(Filter, _leaving.Token);
            _view = new Load<BoardView>.Loaded(new BoardView(board, await Session.WordsAsync(board.Setup)));
            KeepTicksOf(board);
            _isStale = false;
        }
        catch (OperationCanceledException) when (_leaving.IsCancellationRequested)
        {
            // The page was left while it was reading.
        }
        catch (DbException)
        {
            _isStale = true;
            if (_view is not Load<BoardView>.Loaded)
            {
                _view = new Load<BoardView>.Failed(Texts.Board_Failed);
            }
        }
    }

    private async Task LookAgainAsync()
    {
        try
        {
            if (!_leaving.IsCancellationRequested)
            {
                await RefreshAsync();
                StateHasChanged();
            }
        }
        catch (Exception fault)
        {
            // A timer has nobody to tell; the circuit has.
            await DispatchExceptionAsync(fault);
        }
    }

    private sealed record Ahead(BoardView View, bool MayAct);

    private void Tick((TickedTask Task, bool IsTicked) tick)
    {
        _ticked = [.. _ticked.Where(t => t.Id != tick.Task.Id), .. tick.IsTicked ? [tick.Task] : Array.Empty<TickedTask>()];
        _showsSeveral = _ticked.Count > 0;
    }

    private void UntickAll() => (_ticked, _showsSeveral) = ([], false);

    // The bar stays for what it has to tell, also when nothing is ticked any more.
    private Task SeveralDoneAsync(IReadOnlyList<TickedTask> left)
    {
        _ticked = left;
        return RefreshAsync();
    }

    // What ended meanwhile cannot be ticked any more, nor what the filter hides.
    private void KeepTicksOf(ShopBoard board)
    {
        var open = board.Rows.SelectMany(r => r.Tasks).Select(t => t.Id).ToHashSet();
        _ticked = [.. _ticked.Where(t => open.Contains(t.Id))];
    }

    // A button that goes away with its press hands the focus to what stays.
    private void ShowRows(int count, ShopBoard board)
    {
        _rowsShown = count;
        _nextFocus = count == RowsAtATime ? () => _more : count >= board.Rows.Count ? () => _fewer : null;
    }

    private void ShowMoreQuiet(ShopBoard board)
    {
        _quietShown += QuietAtATime;
        _nextFocus = _quietShown >= board.Quiet.Count ? () => _quietTitle : null;
    }

    private static string MoreWords(ShopFormat format, int more, int others) =>
        others == 1 ? Texts.Board_ShowOther
        : others <= more ? format.Say(Texts.Board_ShowRest, format.Count(others))
        : format.Say(Texts.Board_ShowMore, format.Count(more), format.Count(others));

    private void Toggle(SumpState state) => ChangeFilter(Filter with { Show = Filter.Show == state ? null : state });

    private void ChangeFilter(BoardFilter filter) => Navigation.NavigateTo(
        Navigation.GetUriWithQueryParameters(new Dictionary<string, object?>(StringComparer.Ordinal)
        {
            ["area"] = filter.AreaId?.ToString(),
            ["person"] = filter.PersonId?.ToString(),
            ["kind"] = filter.Kind?.ToString().ToLowerInvariant(),
            ["show"] = filter.Show?.ToString().ToLowerInvariant(),
        }),
        replace: true);

    private static T? Named<T>(string? text)
        where T : struct, Enum =>
        Enum.TryParse<T>(text, ignoreCase: true, out var value) && Enum.IsDefined(value) && !char.IsDigit(text[0]) ? value : null;
}
