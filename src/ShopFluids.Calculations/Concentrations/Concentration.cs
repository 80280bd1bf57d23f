namespace ShopFluids.Calculations.Concentrations;

/// <summary>A share of concentrate in the mix, in percent by volume (% v/v), 0 to 100. The default value is 0 %.</summary>
public readonly record struct Concentration
{
    private Concentration(double percent) => Percent = percent;

    /// <summary>Concentrate in percent of the whole mix by volume, 0 to 100.</summary>
    public double Percent { get; }

    /// <summary>A concentration from percent by volume.</summary>
    /// <param name="percent">0 to 100 % v/v.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="percent"/> is not between 0 and 100.</exception>
    public static Concentration FromPercent(double percent) => new(Require.Between(percent, 0, 100, "% v/v"));

    /// <summary>A concentration from "one part concentrate to N parts water".</summary>
    /// <param name="waterParts">N, 0 to <see cref="MixRatio.MaximumParts"/>; 0 is neat concentrate.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="waterParts"/> is out of that range.</exception>
    public static Concentration FromParts(double waterParts) => new(MixRatio.PercentFromParts(waterParts));
}
