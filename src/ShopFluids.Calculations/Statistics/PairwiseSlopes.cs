using System.Runtime.InteropServices;

namespace ShopFluids.Calculations.Statistics;

/// <summary>
/// The k-th smallest of the n(n − 1)/2 slopes between readings. Up to 20 000 pairs all are worked out. Beyond, by J. Matoušek, "Randomized
/// optimal algorithm for slope selection", Information Processing Letters 39 (1991) 183 (from memory): a pair has a slope of at most θ
/// exactly when y − θ x puts it in the other order than x does, so slopes up to θ are counted as inversions in O(n log n). A sample of the slopes
/// between two bounds gives closer bounds, until few enough pairs are left to be looked at; bounds found for one place serve the others. The
/// sample is drawn by a fixed generator: the same readings always give the same answer, exact up to the rounding of y − θ x.
/// </summary>
internal sealed class PairwiseSlopes
{
    private const int Few = 20_000;
    private readonly double[] _times;
    private readonly double[] _values;
    private readonly double _centre;
    private readonly List<Bound> _bounds = [];
    private readonly KeySort _sort;
    private readonly double[] _keys;
    private readonly int[] _numbers;
    private readonly int[] _spare;
    private double[] _slopes = [];
    private ulong _random = 0x9E3779B97F4A7C15UL;

    /// <param name="times">Sorted, with two different ones or more.</param>
    /// <param name="values">Of equal times the smaller first.</param>
    public PairwiseSlopes(ReadOnlySpan<double> times, ReadOnlySpan<double> values)
    {
        (_times, _values, _centre) = (times.ToArray(), values.ToArray(), times[times.Length / 2]);
        (_sort, _keys, _numbers, _spare) = (new KeySort(times.Length), new double[times.Length], new int[times.Length], new int[times.Length]);
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
        if (all.Length == 0)
        {
            _bounds.Add(new(Identity(_times.Length), 0));
            _bounds.Add(new(Order(double.PositiveInfinity, inclusive: true), Count));
        }

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
        var nearest = 0.0;
        var (lower, upper) = Closest(place);
        while (true)
        {
            var inside = upper.Below - lower.Below;
            if (inside <= Few + (4L * _times.Length))
            {
                var left = Slopes(lower, upper, [], inside);
                return left.Length > 0 ? Selection.Kth(left, (int)Math.Clamp(place - lower.Below, 0, left.Length - 1)) : nearest;
            }

            var sample = Slopes(lower, upper, Draw(inside), _times.Length);
            var centre = (place - lower.Below) / (double)inside * sample.Length;
            var margin = 1.5 * Math.Sqrt(sample.Length);
            var low = Selection.Kth(sample, (int)Math.Clamp(centre - margin, 0, sample.Length - 1));
            var high = Selection.Kth(sample, (int)Math.Clamp(centre + margin, 0, sample.Length - 1));
            nearest = Selection.Kth(sample, (int)Math.Clamp(centre, 0, sample.Length - 1));
            var (closerLow, closerHigh) = (Below(low, inclusive: false), Below(high, inclusive: true));
            if (low == high && closerLow.Below <= place && place < closerHigh.Below)
            {
                return low;
            }

            _bounds.Add(closerLow);
            _bounds.Add(closerHigh);
            (lower, upper) = Closest(place);
            if (upper.Below - lower.Below >= inside)
            {
                // Slopes that differ by rounding alone are left.
                return nearest;
            }
        }
    }

    // Of all bounds found so far, also for other places, the two that hold the place most closely.
    private (Bound Lower, Bound Upper) Closest(long place)
    {
        var (lower, upper) = (_bounds[0], _bounds[1]);
        foreach (var bound in _bounds)
        {
            if (bound.Below <= place)
            {
                lower = bound.Below > lower.Below ? bound : lower;
            }
            else
            {
                upper = bound.Below < upper.Below ? bound : upper;
            }
        }

        return (lower, upper);
    }

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
        order.CopyTo(_numbers, 0);
        return new(order, Inversions.Count(_numbers, _spare));
    }

    // The readings in the order of y − slope x; slopes equal to the bound are before it if inclusive, else behind.
    private int[] Order(double slope, bool inclusive)
    {
        var keys = _keys;
        for (var i = 0; i < keys.Length; i++)
        {
            keys[i] = double.IsFinite(slope) ? _values[i] - (slope * (_times[i] - _centre)) : -_times[i];
        }

        var order = _sort.Places(keys);
        for (var start = 0; inclusive && start < keys.Length;)
        {
            var end = start + 1;
            while (end < keys.Length && keys[end] == keys[start])
            {
                end++;
            }

            LatestFirst(order.AsSpan(start, end - start));
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

    // The slopes between two bounds: those at the given places, or all, of which there are about as many as expected.
    private Span<double> Slopes(Bound lower, Bound upper, ReadOnlySpan<long> places, long expected)
    {
        for (var i = 0; i < _spare.Length; i++)
        {
            _spare[upper.Order[i]] = i;
        }

        for (var i = 0; i < _numbers.Length; i++)
        {
            _numbers[i] = _spare[lower.Order[i]];
        }

        var found = 0;
        Inversions.Visit(_numbers, _spare, places, (larger, smaller) =>
        {
            var (a, b) = (upper.Order[larger], upper.Order[smaller]);
            if (found == _slopes.Length)
            {
                Array.Resize(ref _slopes, Math.Max((int)expected, 2 * found));
            }

            _slopes[found++] = Slope(Math.Min(a, b), Math.Max(a, b));
        });
        return _slopes.AsSpan(0, found);
    }

    // One place in each of as many equal parts as there are readings, by Marsaglia's xorshift: ascending without sorting.
    private long[] Draw(long count)
    {
        var places = new long[_times.Length];
        for (var i = 0; i < places.Length; i++)
        {
            _random ^= _random << 13;
            _random ^= _random >> 7;
            _random ^= _random << 17;
            var (from, to) = (count * i / places.Length, count * (i + 1) / places.Length);
            places[i] = from + (long)(_random % (ulong)(to - from));
        }

        return places;
    }

    // An order of the readings, and how many slopes lie below it.
    [StructLayout(LayoutKind.Auto)]
    private readonly record struct Bound(int[] Order, long Below);
}
