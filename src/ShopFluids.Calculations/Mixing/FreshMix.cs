namespace ShopFluids.Calculations.Mixing;

/// <summary>A fresh mix in measurable steps, and what the rounding does to it. The water goes in first, the concentrate is stirred into it.</summary>
/// <param name="ConcentrateLitres">Concentrate, L.</param>
/// <param name="WaterLitres">Water, L.</param>
/// <param name="MixedLitres">Both together, L.</param>
/// <param name="ExpectedPercent">Concentration of the rounded amounts, % v/v.</param>
/// <param name="RoundingPercent">Expected less wanted concentration, % v/v.</param>
public sealed record FreshMixRecipe(double ConcentrateLitres, double WaterLitres, double MixedLitres, double ExpectedPercent, double RoundingPercent);

/// <summary>Concentrate and water for a fresh mix: X = c V, W = V − X. Volumes are additive; definition.</summary>
public static class FreshMix
{
    /// <summary>The sum rounded down to a whole measurable step, so that it never passes the mark it was read from; the concentrate to the nearest.</summary>
    /// <param name="volumeLitres">V, from one measurable step up to 1 000 000 L.</param>
    /// <param name="percent">c, 0 to 100 % v/v.</param>
    /// <param name="measurableLitres">The smallest step that can be measured, above 0 up to 1 000 000 L.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static FreshMixRecipe Plan(double volumeLitres, double percent, double measurableLitres)
    {
        Require.Positive(measurableLitres, 1_000_000, "L");
        Require.Between(volumeLitres, measurableLitres, 1_000_000, "L (one measurable step at least)");
        Require.Between(percent, 0, 100, "% v/v");
        var mixed = Steps.Down(volumeLitres, measurableLitres);
        var concentrate = Math.Min(mixed, Steps.Nearest(mixed * percent / 100, measurableLitres));
        var expected = 100 * concentrate / mixed;
        return new(concentrate, Math.Round(mixed - concentrate, 10), mixed, expected, expected - percent);
    }
}
