namespace ShopFluids.Calculations.Volumes;

/// <summary>Exact volume definitions (NIST Handbook 44, Appendix C) and conversions. Conversions take any finite number.</summary>
public static class VolumeUnits
{
    /// <summary>US liquid gallon, L; exact (231 cubic inches).</summary>
    public const double LitresPerUsGallon = 3.785411784;

    /// <summary>Imperial gallon, L; exact.</summary>
    public const double LitresPerImperialGallon = 4.54609;

    /// <summary>Cubic inch, L; exact.</summary>
    public const double LitresPerCubicInch = 0.016387064;

    /// <summary>Cubic foot, L; exact.</summary>
    public const double LitresPerCubicFoot = 28.316846592;

    /// <summary>US liquid quart, L; exact (a quarter of the gallon).</summary>
    public const double LitresPerUsQuart = LitresPerUsGallon / 4;

    /// <summary>US fluid ounce, mL; exact (1/128 of the gallon).</summary>
    public const double MillilitresPerUsFluidOunce = 1000 * LitresPerUsGallon / 128;

    /// <summary>US liquid gallons to litres.</summary>
    /// <param name="usGallons">Finite.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="usGallons"/> is not finite.</exception>
    public static double LitresFromUsGallons(double usGallons) => Require.Finite(usGallons) * LitresPerUsGallon;

    /// <summary>Litres to US liquid gallons.</summary>
    /// <param name="litres">Finite.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="litres"/> is not finite.</exception>
    public static double UsGallonsFromLitres(double litres) => Require.Finite(litres) / LitresPerUsGallon;

    /// <summary>Imperial gallons to litres.</summary>
    /// <param name="imperialGallons">Finite.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="imperialGallons"/> is not finite.</exception>
    public static double LitresFromImperialGallons(double imperialGallons) => Require.Finite(imperialGallons) * LitresPerImperialGallon;

    /// <summary>Litres to imperial gallons.</summary>
    /// <param name="litres">Finite.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="litres"/> is not finite.</exception>
    public static double ImperialGallonsFromLitres(double litres) => Require.Finite(litres) / LitresPerImperialGallon;
}
