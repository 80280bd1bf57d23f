using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Patterns;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Patterns;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Patterns;

/// <summary>The whole pattern table, and what it makes of what somebody sees. What is ticked stands in the address.</summary>
public sealed partial class PatternsPage
{
    [SupplyParameterFromQuery(Name = PatternsAddress.SumpField)]
    public string? Sump { get; set; }

    [SupplyParameterFromQuery(Name = PatternsAddress.SeenField)]
    public string[]? Seen { get; set; }

    [Inject]
    public required PatternPageQuery Query { get; init; }

    protected override string FailedText => Texts.Pattern_Failed;

    private static PatternTable Table => PatternTable.Shipped;

    private IReadOnlyList<string> SeenNow => Seen ?? [];

    protected override async Task<PatternsView> ReadAsync(DeskWords words, CancellationToken cancellationToken) =>
        new(await Query.RunAsync(Sump, SeenNow, cancellationToken), SeenNow, words);

    private void ChooseSump(ChangeEventArgs e) => Navigation.NavigateTo(PatternsAddress.Of(e.Value as string, SeenNow));

    private void Toggle(string symptom) => Navigation.NavigateTo(PatternsAddress.Of(
        Sump,
        SeenNow.Contains(symptom, StringComparer.Ordinal) ? [.. SeenNow.Where(s => s != symptom)] : [.. SeenNow, symptom]));
}
