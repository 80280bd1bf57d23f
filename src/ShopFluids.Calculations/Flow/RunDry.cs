using ShopFluids.Calculations.Volumes;

namespace ShopFluids.Calculations.Flow;

/// <summary>Whether a sump holds enough for its pump.</summary>
/// <param name="UsableLitres">Fluid between the level now and the pump's intake, L; 0 where the intake is bare.</param>
/// <param name="NeededLitres">Fluid that leaves the sump before the first of it is back, and stays out while running, L.</param>
/// <param name="SpareLitres">Usable less needed, L; negative where the pump will draw air.</param>
/// <param name="SecondsToRunDry">Seconds until the intake is bare if nothing came back (return blocked); null with a pump that stands still.</param>
/// <param name="SmallestSumpLitres">Smallest content, up to the brim, with which a sump of this intake works, L.</param>
/// <param name="RefuseStartBelowMm">Level below which the pump must not be started, mm; null where even a full sump is too small.</param>
public sealed record RunDryCheck(
    double UsableLitres,
    double NeededLitres,
    double SpareLitres,
    double? SecondsToRunDry,
    double SmallestSumpLitres,
    double? RefuseStartBelowMm)
{
    /// <summary>Whether the pump keeps its intake covered.</summary>
    public bool IsEnough => SpareLitres >= 0;
}

/// <summary>
/// Run-dry check. The pump takes Q t before the first fluid is back, and H stays in machine, hoses and chips, so the sump needs Q t + H above
/// the intake. That a sump has to hold this much is common practice, no source; the rest is conservation of volume.
/// </summary>
public static class RunDry
{
    private const double LeastLitresPerMinute = 0.001;

    /// <summary>Checks a level at rest.</summary>
    /// <param name="geometry">The sump.</param>
    /// <param name="levelMm">Level now, at rest, 0 to the brim, mm.</param>
    /// <param name="intakeMm">Level at which the pump begins to draw air, 0 to the brim, mm.</param>
    /// <param name="pump">Q: 0, or from 0.001 L/min.</param>
    /// <param name="roundTripSeconds">t, from the intake through the machine back to the sump, 0 to 86 400 s.</param>
    /// <param name="holdUpLitres">H, what stays out while running, 0 to 1 000 000 L.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static RunDryCheck Check(
        SumpGeometry geometry,
        double levelMm,
        double intakeMm,
        FlowRate pump,
        double roundTripSeconds,
        double holdUpLitres)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        var content = geometry.VolumeLitresAt(Require.Between(levelMm, 0, geometry.BrimMm, "mm (the brim)"));
        var atIntake = geometry.VolumeLitresAt(Require.Between(intakeMm, 0, geometry.BrimMm, "mm (the brim)"));
        var flow = pump.LitresPerMinute is 0 ? 0 : Require.Between(pump.LitresPerMinute, LeastLitresPerMinute, FlowRate.MaximumLitresPerMinute, "L/min", nameof(pump));
        var needed = (flow / 60 * Require.Between(roundTripSeconds, 0, 86_400, "s")) + Require.Between(holdUpLitres, 0, 1_000_000, "L");
        var usable = Math.Max(0, content - atIntake);
        var smallest = atIntake + needed;
        return new(
            usable,
            needed,
            usable - needed,
            flow > 0 ? 60 * usable / flow : null,
            smallest,
            smallest <= geometry.BrimLitres ? geometry.LevelMmAt(smallest) : null);
    }
}
