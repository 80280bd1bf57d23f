namespace ShopFluids.Calculations.Mixing;

/// <summary>Changing a concentration by adding a liquid, or water by losing some. Mass balance with additive volumes.</summary>
public static class Dilution
{
    /// <summary>x = V (c − c_t) / (c_t − a): litres of a liquid of concentration a that bring V litres from c to c_t; the level rises by x.</summary>
    /// <param name="volumeLitres">V, 0 L or more, finite.</param>
    /// <param name="percent">c, 0 to 100 % v/v.</param>
    /// <param name="addedPercent">a, 0 to 100 % v/v, on the other side of c_t than c; 0 is water, 100 is concentrate.</param>
    /// <param name="targetPercent">c_t, 0 to 100 % v/v, between c and a, not equal to a unless c is.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range, or the liquid cannot bring the mix to the target.</exception>
    public static double LitresToAdd(double volumeLitres, double percent, double addedPercent, double targetPercent)
    {
        Require.FiniteNotNegative(volumeLitres);
        Require.Between(percent, 0, 100, "% v/v");
        Require.Between(addedPercent, 0, 100, "% v/v");
        Require.Between(targetPercent, Math.Min(percent, addedPercent), Math.Max(percent, addedPercent), "% v/v (between mix and added liquid)");
        if (percent == targetPercent || volumeLitres == 0)
        {
            return 0;
        }

        // Infinite for the added liquid's own concentration, which no amount of it reaches.
        var litres = volumeLitres * (percent - targetPercent) / (targetPercent - addedPercent);
        return double.IsFinite(litres)
            ? litres
            : throw new ArgumentOutOfRangeException(nameof(targetPercent), targetPercent, "Accepted is a target short of the added liquid's own concentration.");
    }

    /// <summary>c V / (V + w): concentration after w litres of water were added, or lost to evaporation where w is negative.</summary>
    /// <param name="volumeLitres">V, above 0, finite, L.</param>
    /// <param name="percent">c, 0 to 100 % v/v.</param>
    /// <param name="waterLitres">w, L; a loss is at most the water that is there, V (1 − c / 100).</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double PercentAfterWater(double volumeLitres, double percent, double waterLitres)
    {
        Require.FinitePositive(volumeLitres);
        Require.Between(percent, 0, 100, "% v/v");
        Require.Finite(waterLitres);
        var litres = volumeLitres + waterLitres;
        return litres > 0 && waterLitres >= -volumeLitres * (100 - percent) / 100
            ? Math.Min(percent * volumeLitres / litres, 100)
            : throw new ArgumentOutOfRangeException(nameof(waterLitres), waterLitres, "Accepted is a loss of at most the water in the mix.");
    }
}
