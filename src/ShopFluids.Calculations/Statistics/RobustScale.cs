namespace ShopFluids.Calculations.Statistics;

/// <summary>
/// Middle and spread that a few wild readings cannot move. Source: Hampel, "The influence curve and its role in robust estimation", JASA
/// 69 (1974) 383 (from memory); the modified z-score and its limit of 3.5: NIST/SEMATECH e-Handbook 1.3.5.17 (from memory).
/// </summary>
public static class RobustScale
{
    /// <summary>1/Φ⁻¹(0.75): for normal errors, factor × MAD estimates the standard deviation.</summary>
    public const double NormalFactor = 1.482602218505602;

    /// <summary>The median; of an even number the mean of the middle two.</summary>
    /// <param name="values">1 to 100 000, −10¹² to 10¹².</param>
    /// <exception cref="ArgumentOutOfRangeException">Too few, too many, or out of range.</exception>
    public static double Median(IReadOnlyList<double> values) => Selection.Median(Sample.Checked(values, 1));

    /// <summary>MAD, the median of the distances from the median, in the unit of the values.</summary>
    /// <param name="values">As for <see cref="Median"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Too few, too many, or out of range.</exception>
    public static double MedianAbsoluteDeviation(IReadOnlyList<double> values)
    {
        var distances = Sample.Checked(values, 1);
        var median = Selection.Median(distances);
        for (var i = 0; i < distances.Length; i++)
        {
            distances[i] = Math.Abs(distances[i] - median);
        }

        return Selection.Median(distances);
    }

    /// <summary>Robust standard deviation: 1.4826 MAD.</summary>
    /// <param name="values">As for <see cref="Median"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Too few, too many, or out of range.</exception>
    public static double Deviation(IReadOnlyList<double> values) => NormalFactor * MedianAbsoluteDeviation(values);

    /// <summary>
    /// Modified z-scores, (x − median)/(1.4826 MAD); beyond 3.5 either way a reading is a likely outlier. Null where more than half of the
    /// values are equal, so that there is no scale to measure by.
    /// </summary>
    /// <param name="values">As for <see cref="Median"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Too few, too many, or out of range.</exception>
    public static IReadOnlyList<double>? ModifiedScores(IReadOnlyList<double> values)
    {
        var median = Median(values);
        var deviation = Deviation(values);
        var largest = values.Max(value => Math.Abs(value - median));
        return deviation > 1e-9 * largest ? [.. values.Select(value => (value - median) / deviation)] : null;
    }
}
