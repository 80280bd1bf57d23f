using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Rounds;

/// <summary>Where a sump is found on the shop floor and how it is drawn.</summary>
/// <param name="MachineCount">More than one makes it a central system; the tag and name are then those of the first.</param>
public sealed record SumpPlace(Guid SumpId, string Tag, string AreaName, string MachineTag, string MachineName, int MachineCount, SumpLevels Levels)
{
    public static SumpPlace Of(ShopSetup setup, Sump sump, double? volumeLitres)
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(sump);
        var machines = setup.MachinesOf(sump);
        return new(
            sump.Id,
            sump.Tag,
            setup.Area(sump.AreaId).Name,
            machines.Count == 0 ? "" : machines[0].Tag,
            machines.Count == 0 ? "" : machines[0].Name,
            machines.Count,
            SumpLevels.Of(sump, volumeLitres));
    }
}

/// <summary>The levels of a sump as shares of the brim, 0 to 1, for the sight glass.</summary>
/// <param name="Now">Null when nobody knows.</param>
public sealed record SumpLevels(double? Now, double FullMark, double PumpIntake)
{
    public static SumpLevels Of(Sump sump, double? volumeLitres)
    {
        ArgumentNullException.ThrowIfNull(sump);
        var brim = sump.Geometry.BrimMm;
        double? now = volumeLitres is { } litres ? sump.StandingLevelMm(litres) / brim : null;
        return new(now, (double)sump.FullMarkMm / brim, (double)sump.PumpIntakeMm / brim);
    }
}
