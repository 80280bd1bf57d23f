namespace ShopFluids.Calculations.Volumes;

/// <summary>
/// A box with upright walls: V(h) = (L W h_b / 10⁶ − D) h / h_b, in litres. D is what stands in the liquid (pump, pipes, baffles,
/// conveyor). Where over the height it sits is not known, so it is taken off evenly up to the brim: exact at bottom and brim, between
/// them off by D at the very most. Where that matters, a strapping table is the better description.
/// </summary>
/// <param name="LengthMm">L, inside length, above 0 up to 100 000 mm.</param>
/// <param name="WidthMm">W, inside width, above 0 up to 100 000 mm.</param>
/// <param name="BrimMm">h_b, height of the brim above the bottom, above 0 up to 20 000 mm.</param>
/// <param name="DisplacedLitres">D, 0 or more and less than the volume of the box, L.</param>
/// <exception cref="ArgumentOutOfRangeException">A dimension is out of its range, or the displaced volume fills the box.</exception>
public sealed record RectangularSump(double LengthMm, double WidthMm, double BrimMm, double DisplacedLitres = 0) : SumpGeometry
{
    private const double CubicMillimetresPerLitre = 1_000_000;

    /// <summary>Inside length, mm.</summary>
    public double LengthMm { get; } = Require.Positive(LengthMm, 100_000, "mm");

    /// <summary>Inside width, mm.</summary>
    public double WidthMm { get; } = Require.Positive(WidthMm, 100_000, "mm");

    /// <summary>Height of the brim above the bottom, mm.</summary>
    public override double BrimMm { get; } = Require.Positive(BrimMm, 20_000, "mm");

    /// <summary>What stands in the liquid, L, taken off evenly over the height.</summary>
    public double DisplacedLitres { get; } = DisplacedLitres >= 0 && DisplacedLitres < LengthMm * WidthMm * BrimMm / CubicMillimetresPerLitre
        ? DisplacedLitres
        : throw new ArgumentOutOfRangeException(nameof(DisplacedLitres), DisplacedLitres, "Accepted are 0 L up to less than the volume of the box.");

    /// <summary>Volume at the brim, L.</summary>
    public override double BrimLitres => Volume(BrimMm);

    /// <summary>Always 0 L.</summary>
    public override double BottomLitres => 0;

    private double LitresPerMm { get; } = ((LengthMm * WidthMm * BrimMm / CubicMillimetresPerLitre) - DisplacedLitres) / BrimMm;

    /// <inheritdoc/>
    protected override double Volume(double levelMm) => LitresPerMm * levelMm;

    /// <inheritdoc/>
    protected override double Level(double volumeLitres) => volumeLitres / LitresPerMm;

    /// <inheritdoc/>
    protected override double Surface(double levelMm) => LitresPerMm;
}
