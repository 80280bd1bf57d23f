using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Volumes;

/// <summary>Volume from a level that was read.</summary>
public static class LevelVolume
{
    /// <summary>
    /// V(h) ± U in litres, k = 2, U = 2 (dV/dh) r / √12 (JCGM 100, first order). Counted is the step of the scale alone; the sump's
    /// dimensions are taken as exact.
    /// </summary>
    /// <param name="geometry">The sump.</param>
    /// <param name="levelMm">h, 0 to the brim, mm.</param>
    /// <param name="levelResolutionMm">r, the step in which the level is read, 0 or more, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is out of its range.</exception>
    public static Estimate Estimate(SumpGeometry geometry, double levelMm, double levelResolutionMm)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        return Gum.Propagate(
            geometry.VolumeLitresAt(levelMm),
            (geometry.SurfaceLitresPerMmAt(levelMm), Gum.FromResolution(levelResolutionMm)));
    }
}
