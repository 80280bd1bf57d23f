using System.Runtime.InteropServices;
using ShopFluids.Calculations.Statistics;

namespace ShopFluids.Calculations.Charts;

/// <summary>One point of the chart. The default value is 0, without a signal.</summary>
/// <param name="High">S_hi, the sum of what lay above the target by more than the allowance; 0 or more.</param>
/// <param name="Low">S_lo, likewise below.</param>
/// <param name="IsSignal">Whether one of them is beyond the decision limit; on the limit it is not.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct CusumPoint(double High, double Low, bool IsSignal);

/// <summary>
/// The tabular chart of cumulative sums, which says when a shift began: S_hi = max(0, S_hi + x − target − k),
/// S_lo = max(0, S_lo + target − k − x). NIST/SEMATECH e-Handbook 6.3.2.3.
/// </summary>
/// <param name="Points">One per reading.</param>
/// <param name="FirstSignal">Place of the first signal, counted from 0; null without one.</param>
/// <param name="ShiftBegan">Place of the reading with which the sum that signals left 0, the best guess of when the shift began.</param>
public sealed record CusumChart(IReadOnlyList<CusumPoint> Points, int? FirstSignal, int? ShiftBegan)
{
    /// <summary>Works out the chart.</summary>
    /// <param name="values">1 to 100 000 in order of time, −10¹² to 10¹².</param>
    /// <param name="target">−10¹² to 10¹².</param>
    /// <param name="allowance">k, half the shift to be seen, 0 to 10¹², in the unit of the readings.</param>
    /// <param name="decisionLimit">h, 0 to 10¹², in the unit of the readings; commonly 4 or 5 sigma.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static CusumChart Of(IReadOnlyList<double> values, double target, double allowance, double decisionLimit)
    {
        var checkedValues = Sample.Checked(values, 1);
        Require.Between(target, -Sample.Largest, Sample.Largest, "in any unit");
        Require.Between(allowance, 0, Sample.Largest, "in any unit");
        Require.Between(decisionLimit, 0, Sample.Largest, "in any unit");
        var points = new CusumPoint[checkedValues.Length];
        var (high, low, highFrom, lowFrom) = (0.0, 0.0, 0, 0);
        int? first = null;
        int? began = null;
        for (var i = 0; i < points.Length; i++)
        {
            high = Math.Max(0, high + checkedValues[i] - target - allowance);
            low = Math.Max(0, low + target - allowance - checkedValues[i]);
            (highFrom, lowFrom) = (high > 0 ? highFrom : i + 1, low > 0 ? lowFrom : i + 1);
            points[i] = new(high, low, high > decisionLimit || low > decisionLimit);
            if (first is null && points[i].IsSignal)
            {
                (first, began) = (i, high > decisionLimit ? highFrom : lowFrom);
            }
        }

        return new(points, first, began);
    }
}
