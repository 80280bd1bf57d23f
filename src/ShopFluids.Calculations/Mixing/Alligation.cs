namespace ShopFluids.Calculations.Mixing;

/// <summary>Blends of two liquids of known concentration. Mass balance with additive volumes.</summary>
public static class Alligation
{
    /// <summary>Parts of the stronger and of the weaker liquid: c_t − c_low and c_high − c_t.</summary>
    /// <param name="lowPercent">c_low, 0 to below c_high, % v/v.</param>
    /// <param name="highPercent">c_high, above 0 up to 100 % v/v.</param>
    /// <param name="targetPercent">c_t, from c_low to c_high, % v/v.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static (double HighParts, double LowParts) Parts(double lowPercent, double highPercent, double targetPercent)
    {
        Require.Positive(highPercent, 100, "% v/v");
        Require.Between(lowPercent, 0, highPercent, "% v/v (below the stronger liquid)");
        Require.Between(targetPercent, lowPercent, highPercent, "% v/v (between the two liquids)");
        return highPercent > lowPercent
            ? (targetPercent - lowPercent, highPercent - targetPercent)
            : throw new ArgumentOutOfRangeException(nameof(lowPercent), lowPercent, "Accepted is a liquid weaker than the other.");
    }

    /// <summary>Litres of the stronger and of the weaker liquid for a wanted amount.</summary>
    /// <param name="totalLitres">The wanted amount, 0 L or more, finite.</param>
    /// <param name="lowPercent">As for <see cref="Parts"/>.</param>
    /// <param name="highPercent">As for <see cref="Parts"/>.</param>
    /// <param name="targetPercent">As for <see cref="Parts"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static (double HighLitres, double LowLitres) Litres(double totalLitres, double lowPercent, double highPercent, double targetPercent)
    {
        Require.FiniteNotNegative(totalLitres);
        var (high, low) = Parts(lowPercent, highPercent, targetPercent);
        return (totalLitres * high / (high + low), totalLitres * low / (high + low));
    }
}
