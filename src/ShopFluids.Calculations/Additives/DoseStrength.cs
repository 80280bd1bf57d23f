namespace ShopFluids.Calculations.Additives;

/// <summary>In what a label says how much product the fluid may hold.</summary>
public enum DoseMeasure : short
{
    /// <summary>mL of product in a litre of fluid.</summary>
    MillilitresPerLitre = 1,

    /// <summary>Parts by volume in a hundred.</summary>
    PercentByVolume = 2,

    /// <summary>Parts by volume in a million: µL of product in a litre of fluid.</summary>
    PpmByVolume = 3,

    /// <summary>g of product in a litre of fluid.</summary>
    GramsPerLitre = 4,

    /// <summary>mg of product in a kilogram of fluid; ppm by mass.</summary>
    MilligramsPerKilogram = 5,
}

/// <summary>
/// How much of a product a fluid holds after a dose, in the measure of the product's label. Measures by volume go with mL of product, measures by mass
/// with g; the density of the product leads from one to the other. Definitions; a litre of water mix is taken as a kilogram.
/// </summary>
public static class DoseStrength
{
    private const double MostLitres = 1_000_000;
    private const double MostAmount = 1e9;

    /// <summary>Whether the measure goes with g of product.</summary>
    public static bool IsByMass(DoseMeasure measure) => measure is DoseMeasure.GramsPerLitre or DoseMeasure.MilligramsPerKilogram;

    /// <summary>The product that 1 of the measure puts into a litre of fluid: mL by volume, g by mass.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The measure is not one of them.</exception>
    public static double PerLitre(DoseMeasure measure) => measure switch
    {
        DoseMeasure.MillilitresPerLitre or DoseMeasure.GramsPerLitre => 1,
        DoseMeasure.PercentByVolume => 10,
        DoseMeasure.PpmByVolume or DoseMeasure.MilligramsPerKilogram => 0.001,
        _ => throw new ArgumentOutOfRangeException(nameof(measure), measure, "Accepted are the named measures of a label."),
    };

    /// <summary>D / (V k): what a fluid holds that held none.</summary>
    /// <param name="product">D, 0 to 10⁹ mL by volume or g by mass.</param>
    /// <param name="fluidLitres">V, above 0 up to 1 000 000 L.</param>
    /// <param name="measure">k is its <see cref="PerLitre"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double Of(double product, double fluidLitres, DoseMeasure measure) =>
        Require.Between(product, 0, MostAmount, "mL or g") / (Require.Positive(fluidLitres, MostLitres, "L") * PerLitre(measure));

    /// <summary>D ρ: g of so many mL.</summary>
    /// <param name="millilitres">D, 0 to 10⁹ mL.</param>
    /// <param name="densityKgPerLitre">ρ of the product, 0.5 to 3 kg/L.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double Grams(double millilitres, double densityKgPerLitre) =>
        Require.Between(millilitres, 0, MostAmount, "mL") * Require.Between(densityKgPerLitre, 0.5, 3, "kg/L");

    /// <summary>D / ρ: mL of so many g.</summary>
    /// <param name="grams">D, 0 to 10⁹ g.</param>
    /// <param name="densityKgPerLitre">ρ of the product, 0.5 to 3 kg/L.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double Millilitres(double grams, double densityKgPerLitre) =>
        Require.Between(grams, 0, MostAmount, "g") / Require.Between(densityKgPerLitre, 0.5, 3, "kg/L");
}
