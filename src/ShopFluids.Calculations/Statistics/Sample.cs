using System.Runtime.CompilerServices;

namespace ShopFluids.Calculations.Statistics;

/// <summary>The checks that all statistics make of a list of numbers: how many, and none that means nothing or would overflow.</summary>
internal static class Sample
{
    public const int MostValues = 100_000;
    public const double Largest = 1e12;

    /// <summary>A copy of the numbers.</summary>
    public static double[] Checked(IReadOnlyList<double> values, int fewest, [CallerArgumentExpression(nameof(values))] string name = "")
    {
        ArgumentNullException.ThrowIfNull(values, name);
        Require.Between(values.Count, fewest, MostValues, "values", name);
        var copy = new double[values.Count];
        for (var i = 0; i < copy.Length; i++)
        {
            copy[i] = Require.Between(values[i], -Largest, Largest, "in any unit", name);
        }

        return copy;
    }

    public static double Mean(ReadOnlySpan<double> values)
    {
        var sum = 0.0;
        foreach (var value in values)
        {
            sum += value;
        }

        return sum / values.Length;
    }
}
