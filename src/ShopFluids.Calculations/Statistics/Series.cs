namespace ShopFluids.Calculations.Statistics;

/// <summary>
/// Readings of one quantity over time, in order of time, checked once for all statistics of a trend. A series begins anew at every fluid
/// change: a trend across one means nothing.
/// </summary>
public sealed class Series
{
    private const double FarthestTime = 1e9;
    private const double Grid = 1e6;
    private readonly double[] _times;
    private readonly double[] _values;

    private Series(double[] times, double[] values) => (_times, _values) = (times, values);

    /// <summary>How many readings there are.</summary>
    public int Count => _times.Length;

    /// <summary>The times, earliest first; equal times are possible.</summary>
    public ReadOnlySpan<double> Times => _times;

    /// <summary>The values in order of time; of equal times the smaller value first.</summary>
    public ReadOnlySpan<double> Values => _values;

    /// <summary>Puts readings into order of time.</summary>
    /// <param name="times">
    /// In any unit, mostly days; −10⁹ to 10⁹; 1 to 100 000 of them, in any order. They are kept to six decimals (a tenth of a second in
    /// days), so that no slope is worked out from times that differ by rounding alone.
    /// </param>
    /// <param name="values">As many; −10¹² to 10¹².</param>
    /// <exception cref="ArgumentOutOfRangeException">Too few, too many, or out of range.</exception>
    /// <exception cref="ArgumentException">There are not as many values as times.</exception>
    public static Series From(IReadOnlyList<double> times, IReadOnlyList<double> values)
    {
        var sortedTimes = Sample.Checked(times, 1);
        var sortedValues = Sample.Checked(values, 1);
        if (sortedTimes.Length != sortedValues.Length)
        {
            throw new ArgumentException(Require.Text($"Accepted are as many values as times, {sortedTimes.Length}."), nameof(values));
        }

        for (var i = 0; i < sortedTimes.Length; i++)
        {
            sortedTimes[i] = Math.Round(Require.Between(sortedTimes[i], -FarthestTime, FarthestTime, "in the unit of time", nameof(times)) * Grid) / Grid;
        }

        Sort(sortedTimes, sortedValues);
        return new(sortedTimes, sortedValues);
    }

    private static void Sort(double[] times, double[] values)
    {
        Array.Sort(times, values);
        for (var start = 0; start < times.Length;)
        {
            var end = start + 1;
            while (end < times.Length && times[end] == times[start])
            {
                end++;
            }

            Array.Sort(values, start, end - start);
            start = end;
        }
    }

    internal bool HasTwoTimes => _times[0] < _times[^1];
}
