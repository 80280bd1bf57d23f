using System.Data.Common;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Live;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Components.Shared.Loading;

namespace ShopFluids.Web.Pages.Sumps;

/// <summary>One sump: where it stands, what is open, and what happened since the fill; looks again by itself.</summary>
public sealed partial class SumpPage : IDisposable
{
    private readonly CancellationTokenSource _leaving = new();
    private Load<SumpView?> _view = new Load<SumpView?>.Loading();
    private string _loadedTag = "";
    private LiveLook? _live;
    private bool _mayAct;
    private bool _mayEnter;
    private bool _isStale;

    [Parameter]
    public required string Tag { get; set; }

    [Inject]
    public required SumpPageQuery Query { get; init; }

    [Inject]
    public required DeskSession Session { get; init; }

    [Inject]
    public required ShopNews News { get; init; }

    [Inject]
    public required TimeProvider Time { get; init; }

    public void Dispose()
    {
        _live?.Dispose();
        _leaving.Cancel();
        _leaving.Dispose();
    }

    protected override async Task OnParametersSetAsync()
    {
        if (_loadedTag != Tag)
        {
            _loadedTag = Tag;
            await LoadAsync();
        }
    }

    protected override void OnAfterRender(bool firstRender)
    {
        if (firstRender)
        {
            _live = new LiveLook(News, Time, IsOfInterest, () => _ = InvokeAsync(LookAgainAsync));
        }
    }

    private bool IsOfInterest(Guid sumpId) => _view is Load<SumpView?>.Loaded { Value: { } view } && view.Page.Place.SumpId == sumpId;

    private async Task LoadAsync()
    {
        _view = new Load<SumpView?>.Loading();
        await RefreshAsync();
    }

    /// <summary>Reads anew; what is shown stays until there is something newer.</summary>
    private async Task RefreshAsync()
    {
        try
        {
            var rights = await Session.RightsAsync(Policies.CanSupervise, Policies.CanOperate);
            (_mayAct, _mayEnter) = (rights.Contains(Policies.CanSupervise), rights.Contains(Policies.CanOperate));
            var page = await Query.RunAsync(Tag, _leaving.Token);
            _view = new Load<SumpView?>.Loaded(page is null ? null : new SumpView(page, await Session.WordsAsync(page.Setup)));
            _isStale = false;
        }
        catch (OperationCanceledException) when (_leaving.IsCancellationRequested)
        {
            // The page was left while it was reading.
        }
        catch (DbException)
        {
            _isStale = true;
            if (_view is not Load<SumpView?>.Loaded)
            {
                _view = new Load<SumpView?>.Failed(string.Format(System.Globalization.CultureInfo.CurrentCulture, Texts.Sump_Failed, Tag));
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
}
