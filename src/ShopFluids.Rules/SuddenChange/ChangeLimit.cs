using System.Runtime.InteropServices;
using ShopFluids.Calculations.Statistics;
using ShopFluids.Rules.Course;

namespace ShopFluids.Rules.SuddenChange;

/// <summary>How large a change from one reading to the next the charge's own changes so far explain.</summary>
/// <param name="Limit">The largest change that is explained, in the parameter's unit.</param>
/// <param name="Changes">How many earlier changes it rests on.</param>
[StructLayout(LayoutKind.Auto)]
internal readonly record struct ChangeLimit(double Limit, int Changes)
{
    /// <summary>Earlier changes beyond these are forgotten: half a year of weekly readings.</summary>
    public const int MostChanges = 25;

    // Mean over median of the size of a normal change, 0.7979 / 0.6745: times the median range it stands for times the mean range.
    private const double MeanOverMedian = 1.1829;

    // A change of two steps of the display is rounding, whatever the readings before it did.
    private const int StepsOfDisplay = 2;

    // Divided by it, a decimal has as few decimals as it needs.
    private const decimal WithoutTrailingZeros = 1.0000000000000000000000000000m;

    // What nobody would measure again for, whatever the charge did before. Common practice, no source.
    private const double LeastPercent = 0.5;
    private const double LeastPh = 0.2;

    /// <summary>
    /// The factor times the mean moving range (NIST/SEMATECH e-Handbook 6.3.2.2: 3.267), reckoned again without the ranges that lie beyond the
    /// same limit made from their median, so that an earlier wild reading does not blind the chart. At least the combined uncertainty of the two
    /// readings and two steps of the display, and what is worth a second look.
    /// </summary>
    /// <param name="course">The course; its last value is judged and no part of the baseline.</param>
    /// <param name="settings">The rule's numbers.</param>
    /// <returns>The limit; null where there are too few changes.</returns>
    public static ChangeLimit? Of(ParameterCourse course, Settings settings)
    {
        var points = course.Span;
        var last = points.Length - 1;
        var (ranges, decimals) = (new List<double>(MostChanges), Decimals(points[last]));
        for (var i = Math.Max(1, last - MostChanges); i < last; i++)
        {
            decimals = Math.Max(decimals, Decimals(points[i]));
            if (settings.Compares(points[i - 1], points[i], course.Parameter) && course.Expected(i - 1, i) is { } expected)
            {
                ranges.Add(Math.Abs((double)points[i].Value - ((expected.Least + expected.Most) / 2)));
            }
        }

        if (ranges.Count < settings.LeastChanges)
        {
            return null;
        }

        var floor = Floor(course.Parameter, points[last - 1], points[last], decimals);
        var wild = Math.Max(floor, settings.LimitFactor * MeanOverMedian * RobustScale.Median(ranges));
        var (sum, count) = (0.0, 0);
        foreach (var range in ranges)
        {
            (sum, count) = range <= wild ? (sum + range, count + 1) : (sum, count);
        }

        return new(Math.Max(floor, settings.LimitFactor * (sum / count)), count);
    }

    // Those of the parameter, or more where a finer instrument has told more: 9.00 tells no more than 9, for that is how it is stored.
    private static int Decimals(in CoursePoint point) =>
        point.Value.Scale <= point.Decimals ? point.Decimals : Math.Max(point.Decimals, (point.Value / WithoutTrailingZeros).Scale);

    private static double Floor(string parameter, in CoursePoint before, in CoursePoint after, int decimals)
    {
        var combined = Math.Sqrt((double)((before.Uncertainty * before.Uncertainty) + (after.Uncertainty * after.Uncertainty)));
        var least = parameter switch
        {
            ParameterCodes.Concentration => LeastPercent,
            ParameterCodes.Ph => LeastPh,
            _ => 0,
        };
        return Math.Max(Math.Max(combined, least), StepsOfDisplay * Math.Pow(10, -decimals));
    }

    /// <summary>The rule's numbers, as set.</summary>
    /// <param name="LeastChanges">Fewest earlier changes.</param>
    /// <param name="LimitFactor">Times the mean range.</param>
    /// <param name="LongestGapDays">Readings farther apart are not compared.</param>
    /// <param name="LargestExchange">Share of the fluid that may have been put in, or taken out, between two readings of anything but concentration.</param>
    internal sealed record Settings(int LeastChanges, double LimitFactor, double LongestGapDays, double LargestExchange)
    {
        public bool Compares(in CoursePoint before, in CoursePoint after, string parameter) =>
            (after.TakenAt - before.TakenAt).TotalDays <= LongestGapDays
            && (parameter == ParameterCodes.Concentration || after.Since.Exchanged <= LargestExchange);
    }
}
