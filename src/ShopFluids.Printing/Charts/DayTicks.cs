using ShopFluids.Core.Sheets;

namespace ShopFluids.Printing.Charts;

/// <summary>Which days a time axis names: the closest step whose labels do not touch.</summary>
internal static class DayTicks
{
    private static readonly int[] DaySteps = [1, 2, 7, 14];
    private static readonly int[] MonthSteps = [1, 2, 3, 6, 12, 24, 60, 120];

    /// <param name="axis">The axis.</param>
    /// <param name="width">Length of the axis in the drawing.</param>
    /// <param name="least">Least distance between two ticks in the drawing.</param>
    public static IReadOnlyList<DateOnly> On(TrendTimeAxis axis, double width, double least)
    {
        var first = axis.DayOf(axis.FromUtc);
        var last = axis.DayOf(axis.ToUtc);
        var days = Math.Max(1, last.DayNumber - first.DayNumber);
        foreach (var step in DaySteps.Where(s => width * s / days >= least))
        {
            return [.. Enumerable.Range(0, (days / step) + 1).Select(n => first.AddDays(n * step)).Where(d => d <= last)];
        }

        // Longer steps fall on the first of a month, which people count in.
        var month = first.Day == 1 ? first : new DateOnly(first.Year, first.Month, 1).AddMonths(1);
        var months = MonthSteps.FirstOrDefault(s => width * s * 28 / days >= least, MonthSteps[^1]);
        var ticks = new List<DateOnly>();
        for (var day = month; day <= last; day = day.AddMonths(months))
        {
            ticks.Add(day);
        }

        return ticks.Count > 0 ? ticks : [first];
    }
}
