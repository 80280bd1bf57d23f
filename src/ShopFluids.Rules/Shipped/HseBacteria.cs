using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Shipped;

/// <summary>Which of the bands for bacteria that HSE (UK) has published.</summary>
public enum BacteriaBands
{
    /// <summary>Good under 10^4, reasonable under 10^6, poor from there.</summary>
    Current = 0,

    /// <summary>The page of 2006 to 2012: good under 10^3, reasonable under 10^6, poor from there.</summary>
    Of2006 = 1,
}

/// <summary>HSE's bands for bacteria in water-mix fluid, CFU/mL, as powers of ten. The lower bound belongs to a band: a count on a limit is beyond it.</summary>
public static class HseBacteria
{
    /// <summary>The row for a set of bands.</summary>
    /// <param name="bands">Which set.</param>
    public static ShippedLimit For(BacteriaBands bands) => bands switch
    {
        BacteriaBands.Current => new(Row(4m), "HSE, metalworking fluids: bacterial contamination (current page)"),
        BacteriaBands.Of2006 => new(Row(3m), "HSE, metalworking fluids: bacterial contamination (page of 2006 to 2012)"),
        _ => throw new ArgumentOutOfRangeException(nameof(bands), bands, "Not a set of bands."),
    };

    // A dip slide gives a whole or half power of ten: a margin would be a whole step.
    private static ParameterLimits Row(decimal reasonableFrom) =>
        new(ParameterCodes.Bacteria, LimitBasis.Value, null, null, null, null, WarningHigh: reasonableFrom, ActionHigh: 6m, EdgeIsBeyond: true, ClearMargin: 0m);
}
