using ShopFluids.Calculations.Concentrations;

namespace ShopFluids.Core.Readings;

/// <summary>The ends of what may be typed for a concentration, rounded to the inside: an end that is named is accepted itself.</summary>
internal static class ConcentrationRange
{
    /// <summary>The longest titration taken, mL: two fillings of a usual burette. Common practice, no source.</summary>
    public const decimal MaximumTitreMillilitres = 100;

    private const decimal Step = 0.01m;

    /// <summary>The reading that means 0 %.</summary>
    public static decimal LowestBrix(decimal zeroBrix, decimal? celsius) =>
        decimal.Round((decimal)Refractometry.LowestReading((double)zeroBrix, (double?)celsius), 2, MidpointRounding.ToPositiveInfinity);

    /// <summary>The reading that means 100 %, or the end of the scale.</summary>
    public static decimal HighestBrix(decimal zeroBrix, decimal factor, decimal? celsius)
    {
        var end = Refractometry.HighestReading((double)zeroBrix, (double)factor, (double?)celsius);
        var named = decimal.Round((decimal)end, 2, MidpointRounding.ToNegativeInfinity);
        return (double)named > end ? named - Step : named;
    }

    /// <summary>The titre that means 100 %, or the longest one taken.</summary>
    public static decimal HighestTitre(decimal factor)
    {
        var named = decimal.Min(MaximumTitreMillilitres, decimal.Round(100 / factor, 2, MidpointRounding.ToZero));
        return (double)factor * (double)named > 100 ? named - Step : named;
    }
}
