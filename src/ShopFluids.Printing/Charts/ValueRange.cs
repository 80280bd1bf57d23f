using ShopFluids.Core.Sheets;

namespace ShopFluids.Printing.Charts;

/// <summary>Which values a chart shows: every standing reading and every limit, with a little air.</summary>
internal static class ValueRange
{
    private const double Air = 0.06;

    /// <summary>Whether there is anything to put on a scale.</summary>
    public static bool IsEmpty(Trend trend, TrendTimeAxis axis) => Shown(trend, axis).Count == 0;

    /// <remarks>
    /// A superseded reading does not stretch the scale: it is often a slip of ten times the value, and is drawn at the edge instead.
    /// </remarks>
    public static (double Low, double High) Of(Trend trend, TrendTimeAxis axis)
    {
        var values = Shown(trend, axis);
        var span = trend.Range.SmallestSpan > 0 ? trend.Range.SmallestSpan : 1;
        if (values.Count == 0)
        {
            return (0, span);
        }

        var (low, high) = (values.Min(), values.Max());
        var missing = Math.Max(0, span - (high - low)) / 2;
        var air = Math.Max(high - low, span) * Air;
        return (low - missing - air, high + missing + air);
    }

    private static List<double> Shown(Trend trend, TrendTimeAxis axis) =>
        [.. trend.Points.Where(p => !p.IsSuperseded && p.AtUtc >= axis.FromUtc && p.AtUtc <= axis.ToUtc).Select(p => p.Value)
            .Concat(trend.Limits.Where(l => l.ToUtc > axis.FromUtc && l.FromUtc < axis.ToUtc).SelectMany(Values))
            .Concat(Given(trend.Range.Least))
            .Concat(Given(trend.Range.Greatest))
            .Where(double.IsFinite)];

    private static IEnumerable<double> Values(TrendLimits limits) =>
        new[] { limits.ActionLow, limits.WarningLow, limits.TargetLow, limits.TargetHigh, limits.WarningHigh, limits.ActionHigh }.SelectMany(Given);

    private static IEnumerable<double> Given(double? value) => value is { } known ? [known] : [];
}
