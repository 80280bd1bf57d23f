using ShopFluids.Core.Limits;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Core.Setup;

/// <summary>Level limits belong to the sump: they follow its own marks, as long as nobody has set others.</summary>
internal static class SumpLevelLimits
{
    public static LimitSet First(Guid id, Guid sumpId, decimal fullMarkMm, decimal pumpIntakeMm) =>
        new(id, null, sumpId, 1, DateTime.UnixEpoch, [Of(fullMarkMm, pumpIntakeMm)]);

    /// <summary>The next version of the sump's own limits, for new marks; null where the marks stay or the level limits are set by hand.</summary>
    /// <param name="sump">With the marks as they were.</param>
    /// <param name="fromUtc">From when on they hold, where no later version is there already.</param>
    public static LimitSet? Next(ShopSetup setup, Sump sump, decimal fullMarkMm, decimal pumpIntakeMm, Guid id, DateTime fromUtc)
    {
        var (was, now) = (Of(sump.FullMarkMm, sump.PumpIntakeMm), Of(fullMarkMm, pumpIntakeMm));
        return was != now && setup.LimitSets.Where(l => l.SumpId == sump.Id).MaxBy(l => l.Number) is { } own && own.Limits.Contains(was)
            ? new LimitSet(id, null, sump.Id, own.Number + 1, own.ValidFromUtc > fromUtc ? own.ValidFromUtc : fromUtc, [.. own.Limits.Select(l => l == was ? now : l)])
            : null;
    }

    private static ParameterLimits Of(decimal fullMarkMm, decimal pumpIntakeMm) => CommonPractice.Level(fullMarkMm, pumpIntakeMm).Limits;
}
