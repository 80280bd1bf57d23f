namespace ShopFluids.Calculations.Statistics;

/// <summary>A straight line that a few wild readings cannot move.</summary>
/// <param name="Slope">The median of the slopes of all pairs of readings, in the unit of the values per unit of time.</param>
/// <param name="Low">The lower end of its confidence interval; null where there are too few readings for that confidence.</param>
/// <param name="High">The upper end, likewise.</param>
/// <param name="Intercept">The median of y − slope × x.</param>
public sealed record TheilSenLine(double Slope, double? Low, double? High, double Intercept);

/// <summary>
/// The Theil–Sen slope: P. K. Sen, "Estimates of the regression coefficient based on Kendall's tau", JASA 63 (1968) 1379. Of N slopes, the
/// M-th smallest and M-th largest, M = ⌊(N − z √variance of S)/2⌋, bound it. Of the two intercepts in use the median of y − b x was
/// chosen. Exact; the pairs are not all looked at, see <see cref="PairwiseSlopes"/>.
/// </summary>
public static class TheilSen
{
    /// <summary>Fits the line.</summary>
    /// <param name="series">Two readings or more, at two times or more; readings of one time are not compared.</param>
    /// <param name="confidence">Of the interval of the slope, 0.5 to 0.9999.</param>
    /// <exception cref="ArgumentException">Too few readings, all at one time, or a confidence out of range.</exception>
    public static TheilSenLine Fit(Series series, double confidence = 0.95)
    {
        ArgumentNullException.ThrowIfNull(series);
        Require.Between(confidence, 0.5, 0.9999, "confidence");
        if (!series.HasTwoTimes)
        {
            throw new ArgumentException("Accepted are readings at two different times or more.", nameof(series));
        }

        var slopes = new PairwiseSlopes(series.Times, series.Values);
        var (_, variance, _) = MannKendall.Score(series);
        var outside = (long)Math.Floor((slopes.Count - (NormalDistribution.Quantile((1 + confidence) / 2) * Math.Sqrt(Math.Max(0, variance)))) / 2);
        var (lower, upper) = ((slopes.Count - 1) / 2, slopes.Count / 2);
        var ends = outside >= 1 ? new[] { outside - 1, slopes.Count - outside } : [];
        var found = slopes.Select([lower, upper, .. ends]);
        var slope = (found[0] + found[1]) / 2;
        return new(slope, ends.Length > 0 ? found[2] : null, ends.Length > 0 ? found[3] : null, Intercept(series, slope));
    }

    private static double Intercept(Series series, double slope)
    {
        var times = series.Times;
        var left = series.Values.ToArray();
        for (var i = 0; i < left.Length; i++)
        {
            left[i] -= slope * times[i];
        }

        return Selection.Median(left);
    }
}
