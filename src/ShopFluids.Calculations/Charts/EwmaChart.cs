using System.Runtime.InteropServices;
using ShopFluids.Calculations.Statistics;

namespace ShopFluids.Calculations.Charts;

/// <summary>One point of the chart. The default value is 0 within limits of 0.</summary>
/// <param name="Value">The weighted average up to and with this reading.</param>
/// <param name="Lower">Its lower limit.</param>
/// <param name="Upper">Its upper limit.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct EwmaPoint(double Value, double Lower, double Upper)
{
    /// <summary>Whether it lies beyond a limit; on the limit it does not.</summary>
    public bool IsSignal => Value < Lower || Value > Upper;
}

/// <summary>
/// The chart of the exponentially weighted moving average, which sees small lasting shifts: z_i = λ x_i + (1 − λ) z_(i−1), z₀ the centre;
/// limits centre ± L σ √(λ/(2 − λ) (1 − (1 − λ)^(2i))). NIST/SEMATECH e-Handbook 6.3.2.4.
/// </summary>
public static class EwmaChart
{
    /// <summary>Works out the points.</summary>
    /// <param name="values">1 to 100 000 in order of time, −10¹² to 10¹².</param>
    /// <param name="centre">The target or mean, −10¹² to 10¹².</param>
    /// <param name="sigma">Standard deviation of a reading, 0 to 10¹².</param>
    /// <param name="weight">λ of the newest reading, 0.01 to 1; the handbook uses 0.2 to 0.3.</param>
    /// <param name="width">L, above 0 to 10 sigma.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static IReadOnlyList<EwmaPoint> Points(IReadOnlyList<double> values, double centre, double sigma, double weight = 0.3, double width = 3)
    {
        var checkedValues = Sample.Checked(values, 1);
        Require.Between(centre, -Sample.Largest, Sample.Largest, "in any unit");
        Require.Between(sigma, 0, Sample.Largest, "in any unit");
        Require.Between(weight, 0.01, 1, "of weight");
        Require.Positive(width, 10, "sigma");
        var points = new EwmaPoint[checkedValues.Length];
        var (average, forgotten) = (centre, 1.0);
        for (var i = 0; i < points.Length; i++)
        {
            average = (weight * checkedValues[i]) + ((1 - weight) * average);
            forgotten *= (1 - weight) * (1 - weight);
            var half = width * sigma * Math.Sqrt(weight / (2 - weight) * (1 - forgotten));
            points[i] = new(average, centre - half, centre + half);
        }

        return points;
    }
}
