using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Bench;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Bench;

/// <summary>The list of calculators.</summary>
public sealed partial class BenchPage
{
    [Inject]
    public required BenchList Bench { get; init; }

    private static string FamilyName(BenchFamily family) => family switch
    {
        BenchFamily.Concentration => Texts.Bench_FamilyConcentration,
        BenchFamily.Mixing => Texts.Bench_FamilyMixing,
        BenchFamily.Volume => Texts.Bench_FamilyVolume,
        BenchFamily.Balance => Texts.Bench_FamilyBalance,
        BenchFamily.Trend => Texts.Bench_FamilyTrend,
        BenchFamily.Flow => Texts.Bench_FamilyFlow,
        BenchFamily.Upkeep => Texts.Bench_FamilyUpkeep,
        _ => throw new ArgumentOutOfRangeException(nameof(family), family, "There is no name for this family."),
    };
}
