namespace ShopFluids.Calculations.Statistics;

/// <summary>
/// The k-th smallest of many numbers without sorting them: C. A. R. Hoare, "Algorithm 65: find", CACM 4 (1961) 321. It rearranges them.
/// </summary>
internal static class Selection
{
    /// <summary>The value that would stand at place <paramref name="k"/>, counted from 0.</summary>
    public static double Kth(Span<double> values, int k)
    {
        var (low, high, left) = (0, values.Length - 1, 2 * (int.Log2(values.Length) + 1));
        while (low < high)
        {
            // Input made to defeat the choice of the pivot is sorted instead.
            if (left-- == 0)
            {
                values.Slice(low, high - low + 1).Sort();
                break;
            }

            var pivot = MiddleOf(values[low], values[(low + high) / 2], values[high]);
            var (i, j) = (low, high);
            while (i <= j)
            {
                while (values[i] < pivot)
                {
                    i++;
                }

                while (values[j] > pivot)
                {
                    j--;
                }

                if (i <= j)
                {
                    (values[i], values[j]) = (values[j], values[i]);
                    i++;
                    j--;
                }
            }

            (low, high) = k <= j ? (low, j) : k >= i ? (i, high) : (k, k);
        }

        return values[k];
    }

    /// <summary>The median; of an even number the mean of the middle two.</summary>
    public static double Median(Span<double> values)
    {
        var upper = Kth(values, values.Length / 2);
        return values.Length % 2 == 1 ? upper : (Kth(values, (values.Length / 2) - 1) + upper) / 2;
    }

    private static double MiddleOf(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}
