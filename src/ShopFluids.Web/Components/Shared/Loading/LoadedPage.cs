using System.Data.Common;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Components.Shared.Loading;

/// <summary>A desk page: reads what it shows, says when it cannot, and reads again after a save without hiding what is there.</summary>
public abstract class LoadedPage<TView> : ComponentBase, IDisposable
    where TView : class
{
    private readonly CancellationTokenSource _leaving = new();

    // Kept beside its source: a save may end after the page was left, and a source that is disposed of gives no token any more.
    protected LoadedPage() => Leaving = _leaving.Token;

    [Inject]
    public required DeskSession Session { get; init; }

    [Inject]
    public required ShopClock Clock { get; init; }

    [Inject]
    public required NavigationManager Navigation { get; init; }

    protected Load<TView> View { get; private set; } = new Load<TView>.Loading();

    /// <summary>What is said when the database does not answer.</summary>
    protected virtual string FailedText => Texts.Setup_Failed;

    /// <summary>A write is not broken off because somebody leaves the page; a read is.</summary>
    protected CancellationToken Leaving { get; }

    public void Dispose()
    {
        _leaving.Cancel();
        _leaving.Dispose();
        GC.SuppressFinalize(this);
    }

    protected override Task OnParametersSetAsync() => LoadAsync();

    protected abstract Task<TView> ReadAsync(DeskWords words, CancellationToken cancellationToken);

    protected async Task LoadAsync()
    {
        if (Leaving.IsCancellationRequested)
        {
            return;
        }

        try
        {
            View = new Load<TView>.Loaded(await ReadAsync(await Session.WordsAsync(Leaving), Leaving));
        }
        catch (OperationCanceledException) when (Leaving.IsCancellationRequested)
        {
            // The page was left while it was reading.
            return;
        }
        catch (DbException)
        {
            View = new Load<TView>.Failed(FailedText);
        }

        // After a save it is the form that renders by itself, not the page around it.
        StateHasChanged();
    }
}
