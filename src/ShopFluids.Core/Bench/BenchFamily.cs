namespace ShopFluids.Core.Bench;

/// <summary>The groups in which the bench shows its calculators, in this order.</summary>
public enum BenchFamily
{
    Concentration,
    Mixing,
    Volume,
    Balance,
    Trend,
    Flow,
    Upkeep,
}
