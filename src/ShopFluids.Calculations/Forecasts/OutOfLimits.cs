using ShopFluids.Calculations.Statistics;

namespace ShopFluids.Calculations.Forecasts;

/// <summary>
/// How likely a reading will be out of its limits: P = T((low − ŷ)/u) + 1 − T((high − ŷ)/u), T the cumulative t distribution with n − 2
/// degrees of freedom and u = s √(1 + 1/n + (x − x̄)²/S_xx), the deviation of the prediction interval.
/// </summary>
public static class OutOfLimits
{
    private const double LongestSpan = 3_650;

    /// <summary>The probability that a reading at some time is out of limits, 0 to 1.</summary>
    /// <param name="line">The trend since the last fluid change or adjustment.</param>
    /// <param name="limits">The limits.</param>
    /// <param name="time">When, −10⁹ to 10⁹.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="time"/> is out of range.</exception>
    public static double ProbabilityAt(StraightLine line, LimitBand limits, double time)
    {
        ArgumentNullException.ThrowIfNull(line);
        ArgumentNullException.ThrowIfNull(limits);
        var (expected, deviation) = (line.At(time), line.PredictionDeviation(time));
        if (deviation <= 1e-12 * Math.Max(Math.Abs(expected), 1e-200))
        {
            return limits.IsOut(expected) ? 1 : 0;
        }

        var below = limits.Low is { } low ? StudentT.Cumulative((low - expected) / deviation, line.DegreesOfFreedom) : 0;
        var above = limits.High is { } high ? StudentT.Cumulative((expected - high) / deviation, line.DegreesOfFreedom) : 0;
        return Math.Min(1, below + above);
    }

    /// <summary>
    /// The probability of being out of limits by some time: the largest of <see cref="ProbabilityAt"/> over whole units of time (days) from the
    /// start on, and at the end. What a reading happens to be is not drawn anew each day; this is what the worst day alone makes likely.
    /// </summary>
    /// <param name="line">The trend since the last fluid change or adjustment.</param>
    /// <param name="limits">The limits.</param>
    /// <param name="from">From when on, −10⁹ to 10⁹.</param>
    /// <param name="until">By when, from <paramref name="from"/> to 3 650 units later, and up to 10⁹.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double ProbabilityBy(StraightLine line, LimitBand limits, double from, double until)
    {
        Require.Between(from, -1e9, 1e9, "in the unit of time");
        Require.Between(until, from, Math.Min(1e9, from + LongestSpan), "in the unit of time (from the start)");
        var largest = ProbabilityAt(line, limits, until);
        for (var unit = 0; from + unit < until; unit++)
        {
            largest = Math.Max(largest, ProbabilityAt(line, limits, from + unit));
        }

        return largest;
    }
}
