namespace ShopFluids.Calculations.Volumes;

/// <summary>
/// A lying cylinder with flat ends. With the wetted angle x, sin(x/4) = √(h/D), the segment is A = D² (x − sin x) / 8 and V = A L / 10⁶;
/// this is r² acos((r − h)/r) − (r − h) √(2rh − h²) written so that it keeps its digits near the bottom. Source: geometry.
/// </summary>
/// <param name="DiameterMm">D, inside diameter, above 0 up to 20 000 mm.</param>
/// <param name="LengthMm">L, inside length, above 0 up to 100 000 mm.</param>
/// <exception cref="ArgumentOutOfRangeException">A dimension is out of its range.</exception>
public sealed record HorizontalCylinderSump(double DiameterMm, double LengthMm) : SumpGeometry
{
    /// <summary>Inside diameter, mm.</summary>
    public double DiameterMm { get; } = Require.Positive(DiameterMm, 20_000, "mm");

    /// <summary>Inside length, mm.</summary>
    public double LengthMm { get; } = Require.Positive(LengthMm, 100_000, "mm");

    /// <summary>The diameter: full is full, mm.</summary>
    public override double BrimMm => DiameterMm;

    /// <summary>Volume of the whole cylinder, L.</summary>
    public override double BrimLitres => Volume(DiameterMm);

    /// <summary>Always 0 L.</summary>
    public override double BottomLitres => 0;

    /// <summary>Share of the full volume, 0 to 1, at a level given as a share of the diameter.</summary>
    /// <param name="levelOverDiameter">h/D, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="levelOverDiameter"/> is out of that range.</exception>
    public static double FractionAt(double levelOverDiameter) =>
        ArcLessSine(4 * Math.Asin(Math.Sqrt(Require.Between(levelOverDiameter, 0, 1, "(level over diameter)")))) / (2 * Math.PI);

    /// <inheritdoc/>
    protected override double Volume(double levelMm) =>
        Math.PI * DiameterMm * DiameterMm * LengthMm / 4_000_000 * FractionAt(levelMm / DiameterMm);

    /// <inheritdoc/>
    protected override double Level(double volumeLitres) => Inverse.Rising(Volume, volumeLitres, 0, DiameterMm);

    /// <summary>Width of the surface times length; 0 at the very bottom and at the very top.</summary>
    /// <param name="levelMm">h, mm.</param>
    protected override double Surface(double levelMm) => 2 * Math.Sqrt(levelMm * (DiameterMm - levelMm)) * LengthMm / 1_000_000;

    // For a small angle the difference would lose its digits; the series is exact to the last of them there.
    private static double ArcLessSine(double x)
    {
        var square = x * x;
        return x < 0.2
            ? x * square / 6 * (1 - (square / 20 * (1 - (square / 42 * (1 - (square / 72))))))
            : x - Math.Sin(x);
    }
}
