using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Volumes;

/// <summary>
/// Fluid in flight: what is in pipes, hoses, machine and chips while the pump runs, and runs back into the sump when it stops. A level read
/// while running and one read at rest differ by it: V(stopped) = V(running) + F. Conservation of volume.
/// </summary>
public static class DrainBack
{
    /// <summary>π d² / 4: what a full pipe holds, L per metre.</summary>
    /// <param name="insideDiameterMm">d, 0 to 10 000 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="insideDiameterMm"/> is out of its range.</exception>
    public static double PipeLitresPerMetre(double insideDiameterMm)
    {
        Require.Between(insideDiameterMm, 0, 10_000, "mm");
        return Math.PI * insideDiameterMm * insideDiameterMm / 4000;
    }

    /// <summary>What a full pipe holds, L.</summary>
    /// <param name="insideDiameterMm">0 to 10 000 mm.</param>
    /// <param name="lengthMetres">0 to 100 000 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double PipeLitres(double insideDiameterMm, double lengthMetres) =>
        PipeLitresPerMetre(insideDiameterMm) * Require.Between(lengthMetres, 0, 100_000, "m");

    /// <summary>The level once all fluid in flight is back.</summary>
    /// <param name="geometry">The sump.</param>
    /// <param name="runningLevelMm">Level while running, 0 to the brim, mm.</param>
    /// <param name="inFlightLitres">F, 0 up to the room between that level and the brim, L; more would overflow.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double StoppedLevelMm(SumpGeometry geometry, double runningLevelMm, double inFlightLitres)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        var running = geometry.VolumeLitresAt(Require.Between(runningLevelMm, 0, geometry.BrimMm, "mm (the brim)"));
        return geometry.LevelMmAt(running + Require.Between(inFlightLitres, 0, geometry.BrimLitres - running, "L (more would overflow the brim)"));
    }

    /// <summary>The level once the fluid in flight has left the sump.</summary>
    /// <param name="geometry">The sump.</param>
    /// <param name="stoppedLevelMm">Level at rest, 0 to the brim, mm.</param>
    /// <param name="inFlightLitres">F, 0 up to what is in the sump above its zero mark, L.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double RunningLevelMm(SumpGeometry geometry, double stoppedLevelMm, double inFlightLitres)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        var stopped = geometry.VolumeLitresAt(Require.Between(stoppedLevelMm, 0, geometry.BrimMm, "mm (the brim)"));
        Require.Between(inFlightLitres, 0, stopped - geometry.BottomLitres, "L (more would empty the sump)");
        return geometry.LevelMmAt(Math.Max(stopped - inFlightLitres, geometry.BottomLitres));
    }

    /// <summary>The highest level while running that does not overflow when the pump stops, mm.</summary>
    /// <param name="geometry">The sump.</param>
    /// <param name="inFlightLitres">F, 0 up to what the sump holds, L.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double HighestRunningLevelMm(SumpGeometry geometry, double inFlightLitres)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        return RunningLevelMm(geometry, geometry.BrimMm, inFlightLitres);
    }

    /// <summary>F ± U from a level read while running and one read at rest, L; U from the step of the scale alone, k = 2 (JCGM 100).</summary>
    /// <param name="geometry">The sump.</param>
    /// <param name="runningLevelMm">Level while running, 0 up to the level at rest, mm.</param>
    /// <param name="stoppedLevelMm">Level at rest, 0 to the brim, mm.</param>
    /// <param name="levelResolutionMm">The step in which both are read, 0 or more, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static Estimate InFlight(SumpGeometry geometry, double runningLevelMm, double stoppedLevelMm, double levelResolutionMm)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        Require.Between(stoppedLevelMm, 0, geometry.BrimMm, "mm (the brim)");
        Require.Between(runningLevelMm, 0, stoppedLevelMm, "mm (the level at rest)");
        var u = Gum.FromResolution(levelResolutionMm);
        return Gum.Propagate(
            geometry.VolumeLitresAt(stoppedLevelMm) - geometry.VolumeLitresAt(runningLevelMm),
            (geometry.SurfaceLitresPerMmAt(stoppedLevelMm), u),
            (geometry.SurfaceLitresPerMmAt(runningLevelMm), u));
    }
}
