namespace ShopFluids.Calculations.Additives;

/// <summary>
/// Amounts of a tank-side additive in mL of product. "ppm" has two meanings in the trade and they are kept apart: parts of product by volume,
/// and mg of active matter per litre. Definitions.
/// </summary>
public static class Dose
{
    private const double MostLitres = 1_000_000;

    /// <summary>V d: the label says mL of product per litre of fluid.</summary>
    /// <param name="fluidLitres">V, 0 to 1 000 000 L.</param>
    /// <param name="millilitresPerLitre">d, 0 to 1000 mL/L.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double FromMillilitresPerLitre(double fluidLitres, double millilitresPerLitre) =>
        Require.Between(fluidLitres, 0, MostLitres, "L") * Require.Between(millilitresPerLitre, 0, 1000, "mL/L");

    /// <summary>V p / 1000: ppm of product by volume (µL of product per litre of fluid).</summary>
    /// <param name="fluidLitres">V, 0 to 1 000 000 L.</param>
    /// <param name="ppmByVolume">p, 0 to 1 000 000 ppm v/v.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double FromPpmByVolume(double fluidLitres, double ppmByVolume) =>
        Require.Between(fluidLitres, 0, MostLitres, "L") * Require.Between(ppmByVolume, 0, 1_000_000, "ppm v/v") / 1000;

    /// <summary>V m / (10 a ρ): mg of active matter per litre of fluid, from a product with a % active matter by mass and density ρ.</summary>
    /// <param name="fluidLitres">V, 0 to 1 000 000 L.</param>
    /// <param name="activeMgPerLitre">m, 0 to 1 000 000 mg/L.</param>
    /// <param name="activePercentByMass">a, 0.01 to 100 % by mass.</param>
    /// <param name="densityKgPerLitre">ρ of the product, 0.5 to 3 kg/L.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double FromActiveMgPerLitre(double fluidLitres, double activeMgPerLitre, double activePercentByMass, double densityKgPerLitre) =>
        Require.Between(fluidLitres, 0, MostLitres, "L") * Require.Between(activeMgPerLitre, 0, 1_000_000, "mg/L")
        / (10 * Require.Between(activePercentByMass, 0.01, 100, "% by mass") * Require.Between(densityKgPerLitre, 0.5, 3, "kg/L"));
}
