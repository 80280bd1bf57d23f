namespace ShopFluids.Calculations.Statistics;

/// <summary>
/// Pairs that stand in the wrong order, counted while merge sorting: O(n log n). W. R. Knight, "A computer method for calculating Kendall's
/// tau with ungrouped data", JASA 61 (1966) 436 (from memory). The merging does not branch on the numbers, which a processor could not foresee:
/// so little is left of the logarithm that other work for each number hides it.
/// </summary>
internal static class Inversions
{
    /// <summary>How many pairs have the larger number first. The numbers end up in another order.</summary>
    /// <param name="numbers">0 or more each.</param>
    /// <param name="spare">As many; overwritten.</param>
    public static long Count(int[] numbers, int[] spare) => Sort(numbers, spare, [], null);

    /// <summary>
    /// Hands over the pairs (larger, smaller) at the given places in the order of the merging, which is the same at every run. The
    /// numbers end up in another order.
    /// </summary>
    /// <param name="numbers">What to sort, 0 or more each.</param>
    /// <param name="spare">As many; overwritten.</param>
    /// <param name="places">Ascending, counted from 0; below the number of inversions. Empty for all of them.</param>
    /// <param name="visit">Gets the larger and the smaller number of each pair.</param>
    public static void Visit(int[] numbers, int[] spare, ReadOnlySpan<long> places, Action<int, int> visit) => Sort(numbers, spare, places, visit);

    private static long Sort(int[] numbers, int[] spare, ReadOnlySpan<long> places, Action<int, int>? visit)
    {
        var (from, to, total, next) = (numbers, spare, 0L, 0);
        var place = visit is null ? long.MaxValue : At(places, next);
        for (var width = 1; width < numbers.Length; width *= 2)
        {
            for (var start = 0; start < numbers.Length; start += 2 * width)
            {
                var (i, k, middle) = (start, start, Math.Min(start + width, numbers.Length));
                var (j, end) = (middle, Math.Min(start + (2 * width), numbers.Length));
                var isSorted = middle == end || from[middle - 1] <= from[middle];
                while (!isSorted && i < middle && j < end)
                {
                    // All ones where the second is smaller, so that it goes first.
                    var isSecond = (from[j] - from[i]) >> 31;
                    var passed = total + ((middle - i) & isSecond);
                    while (place < passed)
                    {
                        visit?.Invoke(from[i + (int)(place - total)], from[j]);
                        place = At(places, ++next);
                    }

                    total = passed;
                    to[k++] = from[i] + ((from[j] - from[i]) & isSecond);
                    i += 1 + isSecond;
                    j -= isSecond;
                }

                Array.Copy(from, i, to, k, middle - i);
                Array.Copy(from, j, to, k + middle - i, end - j);
            }

            (from, to) = (to, from);
        }

        return total;
    }

    private static long At(ReadOnlySpan<long> places, int next) => places.IsEmpty ? next : next < places.Length ? places[next] : long.MaxValue;
}
