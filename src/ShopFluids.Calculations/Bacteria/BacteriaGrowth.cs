using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Bacteria;

/// <summary>How fast a count changed between two slides.</summary>
/// <param name="Log10PerHour">Change of log10 per hour with its uncertainty; negative while the count falls.</param>
/// <param name="DoublingHours">Hours to double; null where the rise is not beyond its uncertainty.</param>
/// <param name="ShortestDoublingHours">Hours to double at the upper end of the uncertainty; null where <paramref name="DoublingHours"/> is.</param>
/// <param name="LongestDoublingHours">Hours to double at the lower end of the uncertainty; null where <paramref name="DoublingHours"/> is.</param>
public sealed record GrowthRate(Estimate Log10PerHour, double? DoublingHours, double? ShortestDoublingHours, double? LongestDoublingHours);

/// <summary>
/// Exponential growth between two counts: r = (log₁₀ N₂ − log₁₀ N₁) / t, doubling time log₁₀ 2 / r. A dip slide is good to about half a power
/// of ten either way, so most pairs permit no doubling time, and none is given then. Definition; growth is exponential only while food
/// and warmth last.
/// </summary>
public static class BacteriaGrowth
{
    private const double MostHours = 100_000;

    /// <summary>Rate and doubling time with U(r) = 2 √2 u / t, k = 2 (JCGM 100).</summary>
    /// <param name="firstCfu">N₁, 1 to 10¹² CFU/mL.</param>
    /// <param name="secondCfu">N₂, 1 to 10¹² CFU/mL.</param>
    /// <param name="hours">t between the samples (not between the readings of the slides), 0.1 to 100 000 h.</param>
    /// <param name="standardUncertaintyLog10">u of one log10, 0.001 to 3; half a step of a slide with steps of a power of ten is 0.29.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static GrowthRate Between(double firstCfu, double secondCfu, double hours, double standardUncertaintyLog10)
    {
        var (first, second) = (Log(firstCfu, nameof(firstCfu)), Log(secondCfu, nameof(secondCfu)));
        Require.Between(hours, 0.1, MostHours, "h");
        Require.Between(standardUncertaintyLog10, 0.001, 3, "log10 CFU/mL");
        var rate = Gum.Propagate((second - first) / hours, (1 / hours, standardUncertaintyLog10), (-1 / hours, standardUncertaintyLog10));
        return rate.Value > rate.ExpandedUncertainty
            ? new(rate, Doubling(rate.Value), Doubling(rate.Value + rate.ExpandedUncertainty), Doubling(rate.Value - rate.ExpandedUncertainty))
            : new(rate, null, null, null);
    }

    /// <summary>Hours until a count reaches a limit if it keeps doubling; 0 where it has.</summary>
    /// <param name="cfuPerMillilitre">1 to 10¹² CFU/mL.</param>
    /// <param name="limitCfu">1 to 10¹² CFU/mL.</param>
    /// <param name="doublingHours">0.001 to 10⁹ h.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double HoursToReach(double cfuPerMillilitre, double limitCfu, double doublingHours)
    {
        var (now, limit) = (Log(cfuPerMillilitre, nameof(cfuPerMillilitre)), Log(limitCfu, nameof(limitCfu)));
        Require.Between(doublingHours, 0.001, 1e9, "h");
        return Math.Max(0, limit - now) / Math.Log10(2) * doublingHours;
    }

    private static double Log(double cfu, string name) => Math.Log10(Require.Between(cfu, 1, BacteriaScale.MaximumCfu, "CFU/mL", name));

    private static double Doubling(double log10PerHour) => Math.Log10(2) / log10PerHour;
}
