using ShopFluids.Calculations.Statistics;
using ShopFluids.Rules.Limit;

namespace ShopFluids.Rules.Drift;

/// <summary>A trend, and where it leads.</summary>
/// <param name="SlopePerDay">Theil-Sen slope, in the parameter's unit a day.</param>
/// <param name="Limit">The limit that it meets.</param>
/// <param name="Days">When the line meets it, in days from the reading judged; 0 where it is there already.</param>
/// <param name="Earliest">The same with the steeper end of the slope's 90 % interval.</param>
/// <param name="Latest">With its flatter end; null where that does not lead there at all.</param>
internal sealed record Trend(double SlopePerDay, decimal Limit, double Days, double Earliest, double? Latest)
{
    private const double Confidence = 0.9;

    /// <summary>The side to which it goes.</summary>
    public Direction Direction => SlopePerDay > 0 ? Direction.High : Direction.Low;

    /// <summary>
    /// The trend of a series by the Mann-Kendall test, and when the Theil-Sen line meets the first limit of the row on its side. Null where
    /// there is none, it may well be chance, or there is no limit on its side.
    /// </summary>
    /// <param name="counted">Four readings or more.</param>
    /// <param name="row">The limits.</param>
    /// <param name="largestPValue">The largest p of a trend to a side that is no chance.</param>
    public static Trend? Of(CountedReadings counted, Facts.ParameterLimits row, Func<Direction, double> largestPValue)
    {
        var test = MannKendall.Test(counted.Series);
        var direction = test.S > 0 ? Direction.High : Direction.Low;

        // Asked before the line, which costs more than the test: the readings of a healthy charge end here.
        if (test.PValue > largestPValue(direction))
        {
            return null;
        }

        var line = TheilSen.Fit(counted.Series, Confidence);

        // Where more pairs rise than fall, the middle one cannot fall, and the other way round; but it can be level.
        if (line.Slope == 0
            || (LimitRow.LimitFor(row, Verdict.Warning, direction) ?? LimitRow.LimitFor(row, Verdict.Action, direction)) is not { } limit)
        {
            return null;
        }

        var left = (double)limit - line.Intercept - (line.Slope * counted.LastDay);
        var (low, high) = (line.Low ?? line.Slope, line.High ?? line.Slope);
        var (steep, flat) = direction == Direction.High ? (high, low) : (low, high);
        return new(
            line.Slope,
            limit,
            Math.Max(0, left / line.Slope),
            Math.Max(0, left / steep),
            line.Low is not null && Math.Sign(flat) == Math.Sign(line.Slope) ? Math.Max(0, left / flat) : null);
    }
}
