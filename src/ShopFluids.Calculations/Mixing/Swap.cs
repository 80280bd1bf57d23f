namespace ShopFluids.Calculations.Mixing;

/// <summary>Correcting a concentration without changing the level. Mass balance with additive volumes.</summary>
public static class Swap
{
    /// <summary>R = V (c − c_t) / (c − m): litres to remove and to replace by premix of concentration m.</summary>
    /// <param name="volumeLitres">V, 0 L or more, finite.</param>
    /// <param name="percent">c, 0 to 100 % v/v.</param>
    /// <param name="refillPercent">m, 0 to 100 % v/v; 0 is water.</param>
    /// <param name="targetPercent">c_t, from c to m, % v/v.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double LitresToExchange(double volumeLitres, double percent, double refillPercent, double targetPercent)
    {
        Require.FiniteNotNegative(volumeLitres);
        Require.Between(percent, 0, 100, "% v/v");
        Require.Between(refillPercent, 0, 100, "% v/v");
        Require.Between(targetPercent, Math.Min(percent, refillPercent), Math.Max(percent, refillPercent), "% v/v (between mix and refill)");
        return percent == targetPercent ? 0 : volumeLitres * ((percent - targetPercent) / (percent - refillPercent));
    }
}
