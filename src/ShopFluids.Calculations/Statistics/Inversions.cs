namespace ShopFluids.Calculations.Statistics;

/// <summary>
/// Pairs that stand in the wrong order, counted while merge sorting: O(n log n). W. R. Knight, "A computer method for calculating Kendall's
/// tau with ungrouped data", JASA 61 (1966) 436 (from memory).
/// </summary>
internal static class Inversions
{
    /// <summary>How many pairs have the larger number first. The numbers end up in another order.</summary>
    public static long Count(int[] numbers) => Sort(numbers, [], null);

    /// <summary>
    /// Hands over the pairs (larger, smaller) at the given places in the order of the merging, which is the same at every run. The
    /// numbers end up in another order.
    /// </summary>
    /// <param name="numbers">What to sort.</param>
    /// <param name="places">Ascending, counted from 0; below the number of inversions.</param>
    /// <param name="visit">Gets the larger and the smaller number of each pair.</param>
    public static void Visit(int[] numbers, ReadOnlySpan<long> places, Action<int, int> visit) => Sort(numbers, places, visit);

    private static long Sort(int[] numbers, ReadOnlySpan<long> places, Action<int, int>? visit)
    {
        var (from, to, total, next) = (numbers, new int[numbers.Length], 0L, 0);
        for (var width = 1; width < numbers.Length; width *= 2)
        {
            for (var start = 0; start < numbers.Length; start += 2 * width)
            {
                var (i, middle) = (start, Math.Min(start + width, numbers.Length));
                var (j, end) = (middle, Math.Min(start + (2 * width), numbers.Length));
                for (var k = start; k < end; k++)
                {
                    if (i < middle && (j == end || from[i] <= from[j]))
                    {
                        to[k] = from[i++];
                        continue;
                    }

                    for (; next < places.Length && places[next] < total + middle - i; next++)
                    {
                        visit?.Invoke(from[i + (int)(places[next] - total)], from[j]);
                    }

                    total += middle - i;
                    to[k] = from[j++];
                }
            }

            (from, to) = (to, from);
        }

        return total;
    }
}
