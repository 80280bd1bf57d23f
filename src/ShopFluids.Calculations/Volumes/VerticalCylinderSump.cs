namespace ShopFluids.Calculations.Volumes;

/// <summary>A standing drum or round tank with a flat bottom: V(h) = π D² h / 4 / 10⁶. Source: geometry.</summary>
/// <param name="DiameterMm">D, inside diameter, above 0 up to 20 000 mm.</param>
/// <param name="BrimMm">Height of the brim, above 0 up to 20 000 mm.</param>
/// <exception cref="ArgumentOutOfRangeException">A dimension is out of its range.</exception>
public sealed record VerticalCylinderSump(double DiameterMm, double BrimMm) : SumpGeometry
{
    /// <summary>Inside diameter, mm.</summary>
    public double DiameterMm { get; } = Require.Positive(DiameterMm, 20_000, "mm");

    /// <summary>Height of the brim, mm.</summary>
    public override double BrimMm { get; } = Require.Positive(BrimMm, 20_000, "mm");

    /// <summary>Volume at the brim, L.</summary>
    public override double BrimLitres => Volume(BrimMm);

    /// <summary>Always 0 L.</summary>
    public override double BottomLitres => 0;

    private double LitresPerMm => Math.PI * DiameterMm * DiameterMm / 4_000_000;

    /// <inheritdoc/>
    protected override double Volume(double levelMm) => LitresPerMm * levelMm;

    /// <inheritdoc/>
    protected override double Level(double volumeLitres) => volumeLitres / LitresPerMm;

    /// <inheritdoc/>
    protected override double Surface(double levelMm) => LitresPerMm;
}
