using System.Runtime.InteropServices;

namespace ShopFluids.Calculations.Statistics;

/// <summary>
/// The k-th smallest of the n(n − 1)/2 slopes between readings. Up to 20 000 pairs all are worked out. Beyond, by J. Matoušek, "Randomized
/// optimal algorithm for slope selection", Information Processing Letters 39 (1991) 183 (from memory): a pair has a slope of at most θ
/// exactly when y − θ x puts it in the other order than x does, so slopes up to θ are counted as inversions in O(n log n). A sample of the slopes
/// between two bounds gives closer bounds, until few enough pairs are left to be looked at. The sample is drawn by a fixed
/// generator: the same readings always give the same answer, exact up to the rounding of y − θ x.
/// </summary>
internal sealed class PairwiseSlopes
{
    private const int Few = 20_000;
    private readonly double[] _times;
    private readonly double[] _values;
    private readonly double _centre;

    /// <param name="times">Sorted, with two different ones or more.</param>
    /// <param name="values">Of equal times the smaller first.</param>
    public PairwiseSlopes(ReadOnlySpan<double> times, ReadOnlySpan<double> values)
    {
        (_times, _values, _centre) = (times.ToArray(), values.ToArray(), times[times.Length / 2]);
        Count = (long)times.Length * (times.Length - 1) / 2;
        var run = 0L;
        for (var i = 1; i < times.Length; i++)
        {
            run = times[i] == times[i - 1] ? run + 1 : 0;
            Count -= run;
        }
    }

    /// <summary>How many pairs have different times.</summary>
    public long Count { get; }

    /// <summary>The slopes at the given places, counted from 0 for the smallest.</summary>
    public double[] Select(ReadOnlySpan<long> places)
    {
        var found = new double[places.Length];
        var all = Count <= Few ? All() : [];
        for (var i = 0; i < places.Length; i++)
        {
            var same = places[..i].IndexOf(places[i]);
            found[i] = same >= 0 ? found[same] : all.Length > 0 ? Selection.Kth(all, (int)places[i]) : Search(places[i]);
        }

        return found;
    }

    private double[] All()
    {
        var (slopes, next) = (new double[Count], 0);
        for (var i = 0; i < _times.Length; i++)
        {
            for (var j = i + 1; j < _times.Length; j++)
            {
                if (_times[j] > _times[i])
                {
                    slopes[next++] = Slope(i, j);
                }
            }
        }

        return slopes;
    }

    private double Search(long place)
    {
        var (random, nearest) = (0x9E3779B97F4A7C15UL, 0.0);
        var lower = new Bound(Identity(_times.Length), 0);
        var upper = new Bound(Order(double.PositiveInfinity, inclusive: true), Count);
        while (true)
        {
            var inside = upper.Below - lower.Below;
            if (inside <= Few + (4L * _times.Length))
            {
                var left = Slopes(lower, upper, Every(inside));
                return left.Length > 0 ? Selection.Kth(left, (int)Math.Clamp(place - lower.Below, 0, left.Length - 1)) : nearest;
            }

            var sample = Slopes(lower, upper, Draw(ref random, inside));
            Array.Sort(sample);
            var centre = (place - lower.Below) / (double)inside * sample.Length;
            var margin = 1.5 * Math.Sqrt(sample.Length);
            var low = (int)Math.Clamp(centre - margin, 0, sample.Length - 1);
            var high = (int)Math.Clamp(centre + margin, 0, sample.Length - 1);
            nearest = sample[(int)Math.Clamp(centre, 0, sample.Length - 1)];
            var (closerLow, closerHigh) = (Below(sample[low], inclusive: false), Below(sample[high], inclusive: true));
            if (sample[low] == sample[high] && closerLow.Below <= place && place < closerHigh.Below)
            {
                return sample[low];
            }

            (lower, upper) = Narrow(Narrow((lower, upper), closerLow, place), closerHigh, place);
            if (upper.Below - lower.Below >= inside)
            {
                // Slopes that differ by rounding alone are left.
                return nearest;
            }
        }
    }

    private static (Bound Lower, Bound Upper) Narrow((Bound Lower, Bound Upper) bounds, Bound closer, long place) =>
        closer.Below <= place
            ? (closer.Below > bounds.Lower.Below ? closer : bounds.Lower, bounds.Upper)
            : (bounds.Lower, closer.Below < bounds.Upper.Below ? closer : bounds.Upper);

    private double Slope(int i, int j) => (_values[j] - _values[i]) / (_times[j] - _times[i]);

    private static int[] Identity(int count)
    {
        var numbers = new int[count];
        for (var i = 0; i < count; i++)
        {
            numbers[i] = i;
        }

        return numbers;
    }

    private Bound Below(double slope, bool inclusive)
    {
        var order = Order(slope, inclusive);
        return new(order, Inversions.Count((int[])order.Clone()));
    }

    // The readings in the order of y − slope x; slopes equal to the bound are before it if inclusive, else behind.
    private int[] Order(double slope, bool inclusive)
    {
        var (order, keys) = (Identity(_times.Length), new double[_times.Length]);
        for (var i = 0; i < keys.Length; i++)
        {
            keys[i] = double.IsFinite(slope) ? _values[i] - (slope * (_times[i] - _centre)) : -_times[i];
        }

        Array.Sort(keys, order);
        for (var start = 0; start < keys.Length;)
        {
            var end = start + 1;
            while (end < keys.Length && keys[end] == keys[start])
            {
                end++;
            }

            var tied = order.AsSpan(start, end - start);
            tied.Sort();
            if (inclusive)
            {
                LatestFirst(tied);
            }

            start = end;
        }

        return order;
    }

    // Readings of one time stay in their order: they are no pair.
    private void LatestFirst(Span<int> tied)
    {
        tied.Reverse();
        for (var start = 0; start < tied.Length;)
        {
            var end = start + 1;
            while (end < tied.Length && _times[tied[end]] == _times[tied[start]])
            {
                end++;
            }

            tied[start..end].Reverse();
            start = end;
        }
    }

    private double[] Slopes(Bound lower, Bound upper, ReadOnlySpan<long> places)
    {
        var rank = new int[_times.Length];
        for (var i = 0; i < rank.Length; i++)
        {
            rank[upper.Order[i]] = i;
        }

        var numbers = new int[rank.Length];
        for (var i = 0; i < numbers.Length; i++)
        {
            numbers[i] = rank[lower.Order[i]];
        }

        var slopes = new List<double>(places.Length);
        Inversions.Visit(numbers, places, (larger, smaller) =>
        {
            var (a, b) = (upper.Order[larger], upper.Order[smaller]);
            slopes.Add(Slope(Math.Min(a, b), Math.Max(a, b)));
        });
        return [.. slopes];
    }

    private static long[] Every(long count)
    {
        var places = new long[count];
        for (var i = 0; i < places.Length; i++)
        {
            places[i] = i;
        }

        return places;
    }

    // Marsaglia's xorshift; ascending places below count, as many as readings.
    private long[] Draw(ref ulong random, long count)
    {
        var places = new long[_times.Length];
        for (var i = 0; i < places.Length; i++)
        {
            random ^= random << 13;
            random ^= random >> 7;
            random ^= random << 17;
            places[i] = (long)(random % (ulong)count);
        }

        Array.Sort(places);
        return places;
    }

    // An order of the readings, and how many slopes lie below it.
    [StructLayout(LayoutKind.Auto)]
    private readonly record struct Bound(int[] Order, long Below);
}
