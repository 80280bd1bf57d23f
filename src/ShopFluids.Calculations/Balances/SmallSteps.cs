namespace ShopFluids.Calculations.Balances;

/// <summary>
/// Exponential and logarithm near their zero, where the plain functions lose their digits. Both use the correction published by
/// W. Kahan, as in the HP-15C Advanced Functions Handbook (from memory).
/// </summary>
internal static class SmallSteps
{
    /// <summary>(1 − e⁻ᶻ) / z, 1 at z = 0.</summary>
    public static double Decayed(double z)
    {
        var left = Math.Exp(-z);
        return left switch
        {
            1 => 1,
            0 => 1 / z,
            double.PositiveInfinity => double.PositiveInfinity,
            _ => (left - 1) / Math.Log(left),
        };
    }

    /// <summary>−ln(1 − x) / x for x below 1; 1 at x = 0.</summary>
    public static double LogOver(double x)
    {
        var left = 1 - x;
        return left is 1 ? 1 : Math.Log(left) / (left - 1);
    }
}
