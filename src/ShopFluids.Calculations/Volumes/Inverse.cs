namespace ShopFluids.Calculations.Volumes;

/// <summary>Inverse of a rising function where no closed form is at hand.</summary>
internal static class Inverse
{
    /// <summary>
    /// The x between low and high with f(x) = y, by 64 halvings, which is past the last digit of anything that a sump can hold.
    /// </summary>
    public static double Rising(Func<double, double> function, double wanted, double low, double high)
    {
        for (var i = 0; i < 64; i++)
        {
            var middle = low + ((high - low) / 2);
            if (function(middle) < wanted)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return high;
    }
}
