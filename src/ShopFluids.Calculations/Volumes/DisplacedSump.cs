namespace ShopFluids.Calculations.Volumes;

/// <summary>
/// Any shape with something standing in the liquid (pump, pipes, baffles, conveyor): V(h) = V₀(h) (1 − D / V₀(brim)). Where over the height it
/// sits is not known, so it is taken off in proportion to the volume: exact at bottom and brim, off by D at the very most between them.
/// For a box this is what <see cref="RectangularSump"/> does.
/// </summary>
/// <param name="Empty">The shape without anything in it.</param>
/// <param name="DisplacedLitres">D, 0 or more and less than the empty shape holds, L.</param>
/// <exception cref="ArgumentNullException"><paramref name="Empty"/> is missing.</exception>
/// <exception cref="ArgumentOutOfRangeException">The displaced volume is out of its range.</exception>
public sealed record DisplacedSump(SumpGeometry Empty, double DisplacedLitres) : SumpGeometry
{
    /// <summary>The shape without anything in it.</summary>
    public SumpGeometry Empty { get; } = Empty ?? throw new ArgumentNullException(nameof(Empty));

    /// <summary>What stands in the liquid, L.</summary>
    public double DisplacedLitres { get; } = Empty is not null && DisplacedLitres >= 0 && DisplacedLitres < Empty.BrimLitres
        ? DisplacedLitres
        : throw new ArgumentOutOfRangeException(nameof(DisplacedLitres), DisplacedLitres, "Accepted are 0 L up to less than the empty shape holds.");

    /// <summary>Height of the brim, mm.</summary>
    public override double BrimMm => Empty.BrimMm;

    /// <summary>Volume at the brim, L.</summary>
    public override double BrimLitres => Empty.BrimLitres * Share;

    /// <summary>Volume at level 0, L.</summary>
    public override double BottomLitres => Empty.BottomLitres * Share;

    private double Share => 1 - (DisplacedLitres / Empty.BrimLitres);

    /// <inheritdoc/>
    protected override double Volume(double levelMm) => Empty.VolumeLitresAt(levelMm) * Share;

    /// <inheritdoc/>
    protected override double Level(double volumeLitres) =>
        Empty.LevelMmAt(Math.Clamp(volumeLitres / Share, Empty.BottomLitres, Empty.BrimLitres));

    /// <inheritdoc/>
    protected override double Surface(double levelMm) => Empty.SurfaceLitresPerMmAt(levelMm) * Share;
}
