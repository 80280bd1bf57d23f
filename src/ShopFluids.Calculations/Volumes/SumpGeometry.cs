namespace ShopFluids.Calculations.Volumes;

/// <summary>
/// The shape of a sump as the relation of level to volume. Level is the height of the liquid above the sump's own zero mark (the
/// bottom for a box), in mm, 0 to the brim; volume is the liquid below it, in litres. Volume rises strictly with level.
/// </summary>
public abstract record SumpGeometry
{
    // A sum of rounded amounts may pass the brim by its last digits; a billionth of the volume is no overfilled sump.
    private const double RelativeRounding = 1e-9;

    /// <summary>Level of the brim, mm, above 0.</summary>
    public abstract double BrimMm { get; }

    /// <summary>Volume with the liquid at the brim, L, above 0.</summary>
    public abstract double BrimLitres { get; }

    /// <summary>Volume with the liquid at level 0, L; 0 unless a strapping table starts above it.</summary>
    public abstract double BottomLitres { get; }

    /// <summary>V(h), L.</summary>
    /// <param name="levelMm">h, 0 to <see cref="BrimMm"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="levelMm"/> is out of that range.</exception>
    public double VolumeLitresAt(double levelMm) => Volume(Require.Between(levelMm, 0, BrimMm, "mm (the brim)"));

    /// <summary>h(V), mm: the inverse of <see cref="VolumeLitresAt"/>.</summary>
    /// <param name="volumeLitres">V, <see cref="BottomLitres"/> to <see cref="BrimLitres"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="volumeLitres"/> is out of that range.</exception>
    public double LevelMmAt(double volumeLitres)
    {
        var volume = volumeLitres > BrimLitres && volumeLitres <= BrimLitres * (1 + RelativeRounding) ? BrimLitres : volumeLitres;
        return Math.Min(Level(Require.Between(volume, BottomLitres, BrimLitres, "L (the brim)", nameof(volumeLitres))), BrimMm);
    }

    /// <summary>dV/dh, L/mm, 0 or more (0 only where a shape ends in an edge): how much a millimetre of level is worth here.</summary>
    /// <param name="levelMm">h, 0 to <see cref="BrimMm"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="levelMm"/> is out of that range.</exception>
    public double SurfaceLitresPerMmAt(double levelMm) => Surface(Require.Between(levelMm, 0, BrimMm, "mm (the brim)"));

    /// <summary>V(h) for a level that is within range.</summary>
    /// <param name="levelMm">h, mm.</param>
    protected abstract double Volume(double levelMm);

    /// <summary>h(V) for a volume that is within range.</summary>
    /// <param name="volumeLitres">V, L.</param>
    protected abstract double Level(double volumeLitres);

    /// <summary>dV/dh for a level that is within range.</summary>
    /// <param name="levelMm">h, mm.</param>
    protected abstract double Surface(double levelMm);
}
