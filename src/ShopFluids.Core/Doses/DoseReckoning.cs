using ShopFluids.Calculations.Additives;

namespace ShopFluids.Core.Doses;

/// <summary>What a dose comes to, and how much of the product the label allows for it.</summary>
/// <param name="Reached">In the measure of the label, rounded as it is stored and shown.</param>
/// <param name="MostAmount">Most product that the label allows in the fluid, mL or g as it is measured out; null where it says nothing.</param>
public sealed record DoseReckoning(decimal Reached, decimal? MostAmount)
{
    private const int AmountDecimals = 2;

    /// <summary>Amounts in g under a label by volume, and amounts in mL under one by mass, need the density of the product.</summary>
    public static bool NeedsDensity(DoseUnit unit, DoseMeasure measure) => DoseStrength.IsByMass(measure) != (unit == DoseUnit.Gram);

    /// <summary>Of what is within the ranges of <see cref="DoseChecks"/>.</summary>
    public static DoseReckoning Of(decimal amount, DoseUnit unit, decimal volumeLitres, DoseMeasure measure, decimal? densityKgPerLitre, decimal? labelMost)
    {
        var product = Product(amount, unit, measure, densityKgPerLitre);
        var reached = decimal.Round((decimal)DoseStrength.Of(product, (double)volumeLitres, measure), DoseUnits.DecimalsOf(measure), MidpointRounding.AwayFromZero);
        return new(reached, labelMost is { } most ? MostOf(most, unit, volumeLitres, measure, densityKgPerLitre) : null);
    }

    /// <summary>mL of product for a measure by volume, g for one by mass.</summary>
    internal static double Product(decimal amount, DoseUnit unit, DoseMeasure measure, decimal? densityKgPerLitre) =>
        !NeedsDensity(unit, measure) ? (double)amount
        : unit == DoseUnit.Gram ? DoseStrength.Millilitres((double)amount, Density(densityKgPerLitre))
        : DoseStrength.Grams((double)amount, Density(densityKgPerLitre));

    // Rounded down, so that the number that is named is one that is accepted; a hair of slack for the last binary digit.
    private static decimal MostOf(decimal most, DoseUnit unit, decimal volumeLitres, DoseMeasure measure, decimal? densityKgPerLitre)
    {
        var product = (double)most * DoseStrength.PerLitre(measure) * (double)volumeLitres;
        var amount = !NeedsDensity(unit, measure) ? product
            : unit == DoseUnit.Gram ? DoseStrength.Grams(product, Density(densityKgPerLitre))
            : DoseStrength.Millilitres(product, Density(densityKgPerLitre));
        return decimal.Round((decimal)(amount * (1 + DoseChecks.Slack)), AmountDecimals, MidpointRounding.ToZero);
    }

    private static double Density(decimal? densityKgPerLitre) =>
        (double)(densityKgPerLitre ?? throw new ArgumentNullException(nameof(densityKgPerLitre), "The density of the product is needed."));
}
