namespace ShopFluids.Calculations.Bacteria;

/// <summary>Counts as powers of ten: a dip slide tells an order of magnitude, so counts are compared and drawn on log10. Definition.</summary>
public static class BacteriaScale
{
    /// <summary>Largest count taken, CFU/mL.</summary>
    public const double MaximumCfu = 1e12;

    /// <summary>log10 of a count.</summary>
    /// <param name="cfuPerMillilitre">1 to 10¹² CFU/mL; less is "none found", which has no logarithm.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="cfuPerMillilitre"/> is out of its range.</exception>
    public static double Log10FromCfu(double cfuPerMillilitre) => Math.Log10(Require.Between(cfuPerMillilitre, 1, MaximumCfu, "CFU/mL"));

    /// <summary>The count of a logarithm, CFU/mL.</summary>
    /// <param name="log10">0 to 12.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="log10"/> is out of its range.</exception>
    public static double CfuFromLog10(double log10) => Math.Pow(10, Require.Between(log10, 0, 12, "log10 CFU/mL"));
}
