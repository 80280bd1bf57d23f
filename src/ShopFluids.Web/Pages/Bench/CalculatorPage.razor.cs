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
public sealed partial class CalculatorPage
{
    private string _shownAddress = "";

    [Parameter]
    public required string Code { get; set; }

    [Inject]
    public required BenchList Bench { get; init; }

    [Inject]
    public required BenchSumpQuery Sumps { get; init; }

    protected override string FailedText => Texts.Bench_Failed;

    protected override Task OnParametersSetAsync() =>
        // What was typed here made this address: the fields are right already.
        Navigation.Uri == _shownAddress ? Task.CompletedTask : LoadAsync();

    protected override async Task<CalculatorView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        var shown = Navigation.Uri;
        var address = QueryHelpers.ParseQuery(new Uri(shown).Query).ToDictionary(q => q.Key, q => q.Value.ToString(), StringComparer.Ordinal);
        var tag = address.GetValueOrDefault(BenchAddress.Sump, "");
        var sump = tag.Length == 0 ? null : await Sumps.FindAsync(tag, cancellationToken);
        _shownAddress = shown;
        return CalculatorView.Of(Bench.Find(Code), sump, tag, address, words);
    }

    private void FillFrom(ChangeEventArgs e) =>
        Navigation.NavigateTo(BenchAddress.Of(Code, e.Value as string, new Dictionary<string, string>()));

    private Task ChangeAsync((BenchInput Input, string Text) change)
    {
        if (View is Load<CalculatorView>.Loaded { Value: { Form: { } form } view })
        {
            form.Change(change.Input, change.Text);
            _shownAddress = Navigation.ToAbsoluteUri(BenchAddress.Of(Code, view.SumpTag, form.Address)).ToString();
            Navigation.NavigateTo(_shownAddress, replace: true);
        }

        return Task.CompletedTask;
    }
}
