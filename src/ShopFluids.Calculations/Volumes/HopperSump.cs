namespace ShopFluids.Calculations.Volumes;

/// <summary>
/// A sump whose lower part narrows evenly from a rectangle at the height of the shoulder to a rectangle, an edge or a point at the bottom,
/// and whose walls are upright above. Lower part: V(h) = h (A(0) + 4 A(h/2) + A(h)) / 6, the prismoidal formula, exact here because both
/// sides grow in a straight line; the formula for pyramids (with the square root) is exact only where both rectangles are similar.
/// A box whose bottom slopes along its length is the case of a bottom of length 0 and full width. Source: geometry.
/// </summary>
/// <param name="TopLengthMm">Inside length from the shoulder up, above 0 up to 100 000 mm.</param>
/// <param name="TopWidthMm">Inside width from the shoulder up, above 0 up to 100 000 mm.</param>
/// <param name="BottomLengthMm">Inside length at the bottom, 0 up to <paramref name="TopLengthMm"/>, mm.</param>
/// <param name="BottomWidthMm">Inside width at the bottom, 0 up to <paramref name="TopWidthMm"/>, mm.</param>
/// <param name="ShoulderMm">Height at which the walls become upright, 1 mm up to the brim.</param>
/// <param name="BrimMm">Height of the brim, 1 to 20 000 mm.</param>
/// <exception cref="ArgumentOutOfRangeException">A dimension is out of its range.</exception>
public sealed record HopperSump(
    double TopLengthMm,
    double TopWidthMm,
    double BottomLengthMm,
    double BottomWidthMm,
    double ShoulderMm,
    double BrimMm) : SumpGeometry
{
    private const double CubicMillimetresPerLitre = 1_000_000;

    /// <summary>Inside length from the shoulder up, mm.</summary>
    public double TopLengthMm { get; } = Require.Positive(TopLengthMm, 100_000, "mm");

    /// <summary>Inside width from the shoulder up, mm.</summary>
    public double TopWidthMm { get; } = Require.Positive(TopWidthMm, 100_000, "mm");

    /// <summary>Inside length at the bottom, mm.</summary>
    public double BottomLengthMm { get; } = Require.Between(BottomLengthMm, 0, TopLengthMm, "mm (the length at the top)");

    /// <summary>Inside width at the bottom, mm.</summary>
    public double BottomWidthMm { get; } = Require.Between(BottomWidthMm, 0, TopWidthMm, "mm (the width at the top)");

    /// <summary>Height of the shoulder, mm.</summary>
    public double ShoulderMm { get; } = Require.Between(ShoulderMm, 1, BrimMm, "mm (the brim)");

    /// <summary>Height of the brim, mm.</summary>
    public override double BrimMm { get; } = Require.Between(BrimMm, 1, 20_000, "mm");

    /// <summary>Volume at the brim, L.</summary>
    public override double BrimLitres => Volume(BrimMm);

    /// <summary>Always 0 L.</summary>
    public override double BottomLitres => 0;

    /// <summary>A box whose bottom rises evenly along its length from 0 at one end to <paramref name="riseMm"/> at the other.</summary>
    /// <param name="lengthMm">Inside length, above 0 up to 100 000 mm.</param>
    /// <param name="widthMm">Inside width, above 0 up to 100 000 mm.</param>
    /// <param name="riseMm">1 mm up to the brim.</param>
    /// <param name="brimMm">Height of the brim above the deep end, 1 to 20 000 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A dimension is out of its range.</exception>
    public static HopperSump WithSlopedBottom(double lengthMm, double widthMm, double riseMm, double brimMm) =>
        new(lengthMm, widthMm, 0, widthMm, riseMm, brimMm);

    /// <inheritdoc/>
    protected override double Volume(double levelMm)
    {
        var wet = Math.Min(levelMm, ShoulderMm);
        return ((wet * (Area(0) + (4 * Area(wet / 2)) + Area(wet)) / 6) + (Area(ShoulderMm) * (levelMm - wet))) / CubicMillimetresPerLitre;
    }

    /// <inheritdoc/>
    protected override double Level(double volumeLitres)
    {
        var toShoulder = Volume(ShoulderMm);
        return volumeLitres > toShoulder
            ? ShoulderMm + ((volumeLitres - toShoulder) * CubicMillimetresPerLitre / Area(ShoulderMm))
            : Inverse.Rising(Volume, volumeLitres, 0, ShoulderMm);
    }

    /// <summary>Area of the surface; 0 only at the very bottom of a hopper that ends in an edge or a point.</summary>
    /// <param name="levelMm">h, mm.</param>
    protected override double Surface(double levelMm) => Area(Math.Min(levelMm, ShoulderMm)) / CubicMillimetresPerLitre;

    private double Area(double heightMm) =>
        double.Lerp(BottomLengthMm, TopLengthMm, heightMm / ShoulderMm) * double.Lerp(BottomWidthMm, TopWidthMm, heightMm / ShoulderMm);
}
