using System.Runtime.InteropServices;

namespace ShopFluids.Calculations.Statistics;

/// <summary>Whether a series rises or falls, without asking for a straight line or normal errors.</summary>
/// <param name="S">Pairs that rise minus pairs that fall; pairs of equal time or equal value count for neither.</param>
/// <param name="Variance">Variance of S if there is no trend, with ties in values and in times.</param>
/// <param name="Z">(S − sign S)/√variance, 0 for S = 0 or where nothing could vary.</param>
/// <param name="PValue">Two-sided probability of an S at least as far from 0 without a trend.</param>
/// <param name="IsExact">Whether the probability is exact (up to 10 readings without ties) instead of the normal approximation.</param>
public sealed record MannKendallResult(long S, double Variance, double Z, double PValue, bool IsExact);

/// <summary>
/// The Mann–Kendall test: EPA QA/G-9S (2006) page 109; Gilbert, Statistical Methods for Environmental Pollution Monitoring (1987) chapter
/// 16; tied times by Kendall's general variance. Works in O(n log n).
/// </summary>
public static class MannKendall
{
    private const int MostForExact = 10;

    /// <summary>Tests a series.</summary>
    /// <param name="series">Four readings or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">There are fewer than four readings.</exception>
    public static MannKendallResult Test(Series series)
    {
        ArgumentNullException.ThrowIfNull(series);
        Require.Between(series.Count, 4, Sample.MostValues, "readings", nameof(series));
        var (s, variance, hasTies) = Score(series);
        var z = s == 0 || variance <= 0 ? 0 : (s - Math.Sign(s)) / Math.Sqrt(variance);
        var exact = !hasTies && series.Count <= MostForExact;
        return new(s, variance, z, exact ? ExactPValue(series.Count, s) : 2 * NormalDistribution.Cumulative(-Math.Abs(z)), exact);
    }

    internal static (long S, double Variance, bool HasTies) Score(Series series)
    {
        var values = series.Values.ToArray();
        var places = new KeySort(values.Length).Places(values);
        var rank = new int[places.Length];
        for (var i = 0; i < places.Length; i++)
        {
            rank[places[i]] = i;
        }

        var (inTimes, inValues) = (Ties.Of(series.Times), Ties.Of(values));
        var both = TiedInBoth(series);
        double n = series.Count;
        var comparable = ((long)series.Count * (series.Count - 1) / 2) - inTimes.Pairs - inValues.Pairs + both;
        var falling = Inversions.Count(rank, places);
        var variance = (((n * (n - 1) * ((2 * n) + 5)) - inTimes.Weighted - inValues.Weighted) / 18)
            + (2 * inTimes.Pairs / (n * (n - 1)) * inValues.Pairs)
            + (n > 2 ? inTimes.Triples / (9 * n * (n - 1) * (n - 2)) * inValues.Triples : 0);
        return (comparable - (2 * falling), variance, inTimes.Pairs + inValues.Pairs > 0);
    }

    private static long TiedInBoth(Series series)
    {
        var times = series.Times;
        var values = series.Values;
        var (pairs, run) = (0L, 0L);
        for (var i = 1; i < times.Length; i++)
        {
            run = times[i] == times[i - 1] && values[i] == values[i - 1] ? run + 1 : 0;
            pairs += run;
        }

        return pairs;
    }

    // Of n! orders, as many have k inversions as the Mahonian numbers say; S = n(n − 1)/2 − 2k.
    private static double ExactPValue(int n, long s)
    {
        double[] counts = [1];
        for (var m = 2; m <= n; m++)
        {
            var next = new double[counts.Length + m - 1];
            for (var k = 0; k < counts.Length; k++)
            {
                for (var add = 0; add < m; add++)
                {
                    next[k + add] += counts[k];
                }
            }

            counts = next;
        }

        var most = (n * (n - 1) / 2) - Math.Abs(s);
        var tail = 0.0;
        for (var k = 0; 2 * k <= most; k++)
        {
            tail += counts[k];
        }

        return Math.Min(1, 2 * tail / counts.Sum());
    }

    [StructLayout(LayoutKind.Auto)]
    private readonly record struct Ties(long Pairs, double Triples, double Weighted)
    {
        public static Ties Of(ReadOnlySpan<double> sorted)
        {
            var (pairs, triples, weighted) = (0L, 0.0, 0.0);
            for (var start = 0; start < sorted.Length;)
            {
                var end = start + 1;
                while (end < sorted.Length && sorted[end] == sorted[start])
                {
                    end++;
                }

                double t = end - start;
                pairs += (long)(end - start) * (end - start - 1) / 2;
                triples += t * (t - 1) * (t - 2);
                weighted += t * (t - 1) * ((2 * t) + 5);
                start = end;
            }

            return new(pairs, triples, weighted);
        }
    }
}
