namespace ShopFluids.Calculations.Concentrations;

/// <summary>
/// The two ways in which a ratio is spoken, kept apart: "1:20" as one part concentrate to twenty parts water (4.76 %), and
/// "one in twenty" of the whole (5 %). Definitions; a trade text that prints "5 % = 1:20" means the second.
/// </summary>
public static class MixRatio
{
    /// <summary>The thinnest mix that is still called a mix here: 1 to a million.</summary>
    public const double MaximumParts = 1_000_000;

    private const double MinimumPercent = 100 / (1 + MaximumParts);

    /// <summary>c = 100 / (1 + N), in % v/v.</summary>
    /// <param name="waterParts">N parts of water to one part of concentrate, 0 to <see cref="MaximumParts"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="waterParts"/> is out of that range.</exception>
    public static double PercentFromParts(double waterParts) => 100 / (1 + Require.Between(waterParts, 0, MaximumParts, "parts of water"));

    /// <summary>N = 100 / c − 1: parts of water to one part of concentrate.</summary>
    /// <param name="percent">c, from 100 / (1 + <see cref="MaximumParts"/>) to 100 % v/v.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="percent"/> is out of that range.</exception>
    public static double PartsFromPercent(double percent) => (100 / Require.Between(percent, MinimumPercent, 100, "% v/v")) - 1;

    /// <summary>c = 100 / n, in % v/v.</summary>
    /// <param name="n">One part of concentrate in n parts of the whole, 1 to <see cref="MaximumParts"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="n"/> is out of that range.</exception>
    public static double PercentFromOneIn(double n) => 100 / Require.Between(n, 1, MaximumParts, "parts of the whole");

    /// <summary>n = 100 / c: one part of concentrate in n parts of the whole.</summary>
    /// <param name="percent">c, from 100 / (1 + <see cref="MaximumParts"/>) to 100 % v/v.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="percent"/> is out of that range.</exception>
    public static double OneInFromPercent(double percent) => 100 / Require.Between(percent, MinimumPercent, 100, "% v/v");
}
