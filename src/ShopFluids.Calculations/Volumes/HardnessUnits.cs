namespace ShopFluids.Calculations.Volumes;

/// <summary>The units in which water hardness is stated.</summary>
public enum HardnessUnit
{
    /// <summary>mg/L as CaCO₃, also written ppm.</summary>
    MgPerLitreCaCO3 = 0,

    /// <summary>Grain of CaCO₃ per US gallon (gpg).</summary>
    GrainPerUsGallon = 1,

    /// <summary>German degree, °dH: 10 mg CaO per litre.</summary>
    GermanDegree = 2,

    /// <summary>French degree, °fH: 10 mg CaCO₃ per litre.</summary>
    FrenchDegree = 3,

    /// <summary>Clark (English) degree: grain of CaCO₃ per imperial gallon.</summary>
    ClarkDegree = 4,

    /// <summary>mmol/L of calcium and magnesium together.</summary>
    MillimolePerLitre = 5,

    /// <summary>meq/L (mval/L) of calcium and magnesium together.</summary>
    MilliequivalentPerLitre = 6,

    /// <summary>mg/L of calcium.</summary>
    MgPerLitreCalcium = 7,

    /// <summary>mg/L of magnesium.</summary>
    MgPerLitreMagnesium = 8,
}

/// <summary>
/// Water hardness to and from mg/L as CaCO₃. Computed from definitions: grain 64.79891 mg and gallons exact; molar masses CaCO₃
/// 100.0869, CaO 56.0774, Ca 40.078, Mg 24.305 g/mol (standard atomic weights, from memory).
/// </summary>
public static class HardnessUnits
{
    private const double GrainMilligrams = 64.79891;
    private const double MolarMassCaCO3 = 100.0869;
    private const double MolarMassCaO = 56.0774;
    private const double MolarMassCalcium = 40.078;
    private const double MolarMassMagnesium = 24.305;

    /// <summary>mg/L as CaCO₃ for one of the unit.</summary>
    /// <param name="unit">One of the named units.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="unit"/> is none of them.</exception>
    public static double MgPerLitreCaCO3Per(HardnessUnit unit) => unit switch
    {
        HardnessUnit.MgPerLitreCaCO3 => 1,
        HardnessUnit.GrainPerUsGallon => GrainMilligrams / VolumeUnits.LitresPerUsGallon,
        HardnessUnit.GermanDegree => 10 * MolarMassCaCO3 / MolarMassCaO,
        HardnessUnit.FrenchDegree => 10,
        HardnessUnit.ClarkDegree => GrainMilligrams / VolumeUnits.LitresPerImperialGallon,
        HardnessUnit.MillimolePerLitre => MolarMassCaCO3,
        HardnessUnit.MilliequivalentPerLitre => MolarMassCaCO3 / 2,
        HardnessUnit.MgPerLitreCalcium => MolarMassCaCO3 / MolarMassCalcium,
        HardnessUnit.MgPerLitreMagnesium => MolarMassCaCO3 / MolarMassMagnesium,
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "Accepted are the named hardness units."),
    };

    /// <summary>A hardness in some unit to mg/L as CaCO₃.</summary>
    /// <param name="value">0 or more, finite.</param>
    /// <param name="unit">Its unit.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is below 0 or not finite, or the unit is unknown.</exception>
    public static double ToMgPerLitreCaCO3(double value, HardnessUnit unit) => Require.FiniteNotNegative(value) * MgPerLitreCaCO3Per(unit);

    /// <summary>A hardness in mg/L as CaCO₃ to some unit.</summary>
    /// <param name="mgPerLitreCaCO3">0 or more, finite.</param>
    /// <param name="unit">The wanted unit.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is below 0 or not finite, or the unit is unknown.</exception>
    public static double FromMgPerLitreCaCO3(double mgPerLitreCaCO3, HardnessUnit unit) =>
        Require.FiniteNotNegative(mgPerLitreCaCO3) / MgPerLitreCaCO3Per(unit);
}
