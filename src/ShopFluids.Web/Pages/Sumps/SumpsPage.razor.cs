using System.Data.Common;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Components.Shared.Loading;

namespace ShopFluids.Web.Pages.Sumps;

/// <summary>Every sump in walking order with where it stands.</summary>
public sealed partial class SumpsPage : IDisposable
{
    private readonly CancellationTokenSource _leaving = new();
    private Load<SumpsView> _view = new Load<SumpsView>.Loading();

    [Inject]
    public required BoardQuery Query { get; init; }

    [Inject]
    public required DeskSession Session { get; init; }

    [Inject]
    public required NavigationManager Navigation { get; init; }

    [SupplyParameterFromQuery(Name = "find")]
    public string? FindText { get; set; }

    public void Dispose()
    {
        _leaving.Cancel();
        _leaving.Dispose();
    }

    protected override async Task OnInitializedAsync() => await LoadAsync();

    private async Task LoadAsync()
    {
        _view = new Load<SumpsView>.Loading();
        try
        {
            var board = await Query.RunAsync(new BoardFilter(), _leaving.Token);
            _view = new Load<SumpsView>.Loaded(new SumpsView(board, await Session.WordsAsync(board.Setup)));
        }
        catch (OperationCanceledException) when (_leaving.IsCancellationRequested)
        {
            // The page was left while it was reading.
        }
        catch (DbException)
        {
            _view = new Load<SumpsView>.Failed(Texts.Sump_ListFailed);
        }
    }

    private void Find(ChangeEventArgs e) =>
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameter("find", string.IsNullOrWhiteSpace(e.Value as string) ? null : (string)e.Value), replace: true);
}
