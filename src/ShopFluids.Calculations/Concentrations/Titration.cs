namespace ShopFluids.Calculations.Concentrations;

/// <summary>Concentration and alkalinity by acid titration.</summary>
public static class Titration
{
    private const double MaximumMillilitres = 10_000;
    private const double MaximumNormality = 20;

    /// <summary>
    /// c = f (V − V_b) (N / N_r) (S_r / S), % v/v. f holds for the reference acid N_r and the reference sample S_r and is specific to
    /// the product (DGUV Regel 109-003, 7.1.1); the scaling is algebra.
    /// </summary>
    /// <param name="titreMillilitres">V, acid used for the sample, mL, from the blank to 10 000.</param>
    /// <param name="blankMillilitres">V_b, acid used for the make-up water alone, mL, 0 to 10 000.</param>
    /// <param name="factorPercentPerMillilitre">f, % v/v per mL of reference acid, above 0 up to 100.</param>
    /// <param name="normality">N of the acid used, eq/L, above 0 up to 20.</param>
    /// <param name="referenceNormality">N_r of the acid that f is stated for, eq/L, above 0 up to 20.</param>
    /// <param name="sampleMillilitres">S, sample taken, mL, above 0 up to 10 000.</param>
    /// <param name="referenceSampleMillilitres">S_r, sample that f is stated for, mL, above 0 up to 10 000.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range, or the result would pass 100 %.</exception>
    public static double Percent(
        double titreMillilitres,
        double blankMillilitres,
        double factorPercentPerMillilitre,
        double normality,
        double referenceNormality,
        double sampleMillilitres,
        double referenceSampleMillilitres)
    {
        Require.Between(blankMillilitres, 0, MaximumMillilitres, "mL");
        Require.Between(titreMillilitres, blankMillilitres, MaximumMillilitres, "mL (the blank at least)");
        Require.Positive(factorPercentPerMillilitre, 100, "% v/v per mL");
        Require.Positive(normality, MaximumNormality, "eq/L");
        Require.Positive(referenceNormality, MaximumNormality, "eq/L");
        Require.Positive(sampleMillilitres, MaximumMillilitres, "mL");
        Require.Positive(referenceSampleMillilitres, MaximumMillilitres, "mL");
        var percent = factorPercentPerMillilitre * (titreMillilitres - blankMillilitres)
            * (normality / referenceNormality) * (referenceSampleMillilitres / sampleMillilitres);
        return percent <= 100
            ? percent
            : throw new ArgumentOutOfRangeException(nameof(titreMillilitres), titreMillilitres, "Accepted is a titre that gives at most 100 % v/v.");
    }

    /// <summary>
    /// Total alkalinity A N 50 000 / S, mg/L as CaCO₃ (Standard Methods 2320 B). 50 000 is the rounded equivalent mass of the method.
    /// </summary>
    /// <param name="titreMillilitres">A, acid used, mL, 0 to 10 000.</param>
    /// <param name="normality">N of the acid, eq/L, above 0 up to 20.</param>
    /// <param name="sampleMillilitres">S, sample taken, mL, above 0 up to 10 000.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double AlkalinityMgPerLitreCaCO3(double titreMillilitres, double normality, double sampleMillilitres) =>
        50 * AlkalinityMilliequivalentsPerLitre(titreMillilitres, normality, sampleMillilitres);

    /// <summary>Total alkalinity A N 1000 / S, meq/L (Standard Methods 2320 B).</summary>
    /// <inheritdoc cref="AlkalinityMgPerLitreCaCO3" path="/param"/>
    /// <inheritdoc cref="AlkalinityMgPerLitreCaCO3" path="/exception"/>
    public static double AlkalinityMilliequivalentsPerLitre(double titreMillilitres, double normality, double sampleMillilitres) =>
        Require.Between(titreMillilitres, 0, MaximumMillilitres, "mL")
        * Require.Positive(normality, MaximumNormality, "eq/L") * 1000
        / Require.Positive(sampleMillilitres, MaximumMillilitres, "mL");
}
