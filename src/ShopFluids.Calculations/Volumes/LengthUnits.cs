namespace ShopFluids.Calculations.Volumes;

/// <summary>Exact length definitions and conversions. Conversions take any finite number.</summary>
public static class LengthUnits
{
    /// <summary>Inch, mm; exact.</summary>
    public const double MillimetresPerInch = 25.4;

    /// <summary>Inches to millimetres.</summary>
    /// <param name="inches">Finite.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="inches"/> is not finite.</exception>
    public static double MillimetresFromInches(double inches) => Require.Finite(inches) * MillimetresPerInch;

    /// <summary>Millimetres to inches.</summary>
    /// <param name="millimetres">Finite.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="millimetres"/> is not finite.</exception>
    public static double InchesFromMillimetres(double millimetres) => Require.Finite(millimetres) / MillimetresPerInch;
}
