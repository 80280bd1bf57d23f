using System.Data.Common;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.WebUtilities;
using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Components.Shared.Loading;

namespace ShopFluids.Web.Pages.Bench;

/// <summary>One calculator: fields, drawing, result. The address follows what is typed.</summary>
public sealed partial class CalculatorPage : IDisposable
{
    private readonly CancellationTokenSource _leaving = new();
    private Load<CalculatorView> _view = new Load<CalculatorView>.Loading();
    private string _shownAddress = "";

    [Parameter]
    public required string Code { get; set; }

    [Inject]
    public required BenchList Bench { get; init; }

    [Inject]
    public required BenchSumpQuery Sumps { get; init; }

    [Inject]
    public required DeskSession Session { get; init; }

    [Inject]
    public required NavigationManager Navigation { get; init; }

    public void Dispose()
    {
        _leaving.Cancel();
        _leaving.Dispose();
    }

    protected override Task OnParametersSetAsync() =>
        // What was typed here made this address: the fields are right already.
        Navigation.Uri == _shownAddress ? Task.CompletedTask : LoadAsync();

    private async Task LoadAsync()
    {
        try
        {
            var address = QueryHelpers.ParseQuery(new Uri(Navigation.Uri).Query).ToDictionary(q => q.Key, q => q.Value.ToString(), StringComparer.Ordinal);
            var words = await Session.WordsAsync(_leaving.Token);
            var tag = address.GetValueOrDefault(BenchAddress.Sump, "");
            var sump = tag.Length == 0 ? null : await Sumps.FindAsync(tag, _leaving.Token);
            _view = new Load<CalculatorView>.Loaded(CalculatorView.Of(Bench.Find(Code), sump, tag, address, words));
            _shownAddress = Navigation.Uri;
        }
        catch (OperationCanceledException) when (_leaving.IsCancellationRequested)
        {
            // The page was left while it was reading.
        }
        catch (DbException)
        {
            _view = new Load<CalculatorView>.Failed(Texts.Bench_Failed);
        }
    }

    private void FillFrom(ChangeEventArgs e) =>
        Navigation.NavigateTo(BenchAddress.Of(Code, e.Value as string, new Dictionary<string, string>()));

    private Task ChangeAsync((BenchInput Input, string Text) change)
    {
        if (_view is Load<CalculatorView>.Loaded { Value: { Form: { } form } view })
        {
            form.Change(change.Input, change.Text);
            _shownAddress = Navigation.ToAbsoluteUri(BenchAddress.Of(Code, view.SumpTag, form.Address)).ToString();
            Navigation.NavigateTo(_shownAddress, replace: true);
        }

        return Task.CompletedTask;
    }
}
