using ShopFluids.Calculations.Additives;

namespace ShopFluids.Core.Doses;

/// <summary>The signs of the units of doses, the same in every language.</summary>
public static class DoseUnits
{
    public static IReadOnlyList<DoseMeasure> Measures { get; } = Enum.GetValues<DoseMeasure>();

    public static string Of(DoseUnit unit) => unit == DoseUnit.Gram ? "g" : "mL";

    public static string Of(DoseMeasure measure) => measure switch
    {
        DoseMeasure.MillilitresPerLitre => "mL/L",
        DoseMeasure.PercentByVolume => "% v/v",
        DoseMeasure.PpmByVolume => "ppm v/v",
        DoseMeasure.GramsPerLitre => "g/L",
        _ => "mg/kg",
    };

    /// <summary>What an amount is told in where the label says nothing.</summary>
    public static DoseMeasure UsualOf(DoseUnit unit) => unit == DoseUnit.Gram ? DoseMeasure.MilligramsPerKilogram : DoseMeasure.MillilitresPerLitre;

    /// <summary>To what a strength is rounded, stored and shown: a millionth of the fluid or finer.</summary>
    public static int DecimalsOf(DoseMeasure measure) => measure switch
    {
        DoseMeasure.PercentByVolume => 4,
        DoseMeasure.MillilitresPerLitre or DoseMeasure.GramsPerLitre => 3,
        _ => 1,
    };
}
