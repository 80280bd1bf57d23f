using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Water;

namespace ShopFluids.Core.Bench.Sumps;

/// <summary>What is known of a sump at this moment, for filling in a calculator.</summary>
/// <param name="Fluid">Null when the sump is empty.</param>
/// <param name="Water">Null when its make-up water is not set up.</param>
/// <param name="LastReadAtUtc">When the latest values were read; null before the first.</param>
/// <param name="Level">Level, mm; null when it was not read on this charge.</param>
/// <param name="Concentration">% v/v; null when it was not read on this charge.</param>
/// <param name="Series">By parameter, oldest first: what was read on this charge, without superseded readings.</param>
/// <param name="Movements">What was added to this charge and taken out of it, oldest first.</param>
public sealed record BenchSump(
    string Tag,
    SumpGeometry Geometry,
    double FullMarkMm,
    double PumpIntakeMm,
    Fluid? Fluid,
    WaterSource? Water,
    DateTime? LastReadAtUtc,
    Estimate? Level,
    Estimate? Concentration,
    ILookup<string, BenchReading> Series,
    IReadOnlyList<BenchMovement> Movements)
{
    /// <summary>From the latest level; null without one.</summary>
    public Estimate? Volume => Level is { } level && level.Value >= 0 && level.Value <= Geometry.BrimMm
        ? new Estimate(Geometry.VolumeLitresAt(level.Value), Geometry.SurfaceLitresPerMmAt(level.Value) * level.ExpandedUncertainty)
        : null;
}

/// <summary>One value of a reading.</summary>
public sealed record BenchReading(DateTime TakenAtUtc, double Value);

/// <summary>Fluid put in or taken out.</summary>
public sealed record BenchMovement(DateTime AtUtc, double WaterLitres, double ConcentrateLitres, double RemovedLitres);
