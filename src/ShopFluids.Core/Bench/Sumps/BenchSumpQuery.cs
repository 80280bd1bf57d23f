using Microsoft.EntityFrameworkCore;
using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Bench.Sumps;

/// <summary>Reads what the bench fills in for a sump.</summary>
public sealed class BenchSumpQuery(ShopDatabase database, SetupCache setups)
{
    /// <returns>Null when there is no such sump in use.</returns>
    public async Task<BenchSump?> FindAsync(string tag, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        if (setup.FindSump(tag) is not { IsRetired: false } sump)
        {
            return null;
        }

        var charge = setup.OpenCharge(sump.Id);
        var standing = await db.Standings.AsNoTracking().SingleAsync(s => s.SumpId == sump.Id, cancellationToken);
        var chargeId = charge?.Id ?? Guid.Empty;
        var series = await db.Measurements.AsNoTracking()
            .Join(db.Readings.Where(r => r.ChargeId == chargeId && !db.Readings.Any(later => later.SupersedesId == r.Id)), m => m.ReadingId, r => r.Id, (m, r) => new { m.Parameter, r.TakenAtUtc, m.Value })
            .OrderBy(m => m.TakenAtUtc)
            .ToListAsync(cancellationToken);
        var additions = await db.Additions.AsNoTracking().Where(a => a.ChargeId == chargeId).ToListAsync(cancellationToken);
        var removals = await db.Removals.AsNoTracking().Where(r => r.ChargeId == chargeId).ToListAsync(cancellationToken);
        return new BenchSump(
            sump.Tag,
            sump.Geometry,
            (double)sump.FullMarkMm,
            (double)sump.PumpIntakeMm,
            charge is null ? null : setup.Fluid(charge.FluidId),
            setup.Water(sump),
            standing.LastReadAtUtc,
            Latest(standing.Facts, ParameterCodes.Level),
            Latest(standing.Facts, ParameterCodes.Concentration),
            series.ToLookup(m => m.Parameter, m => new BenchReading(m.TakenAtUtc, m.Value), StringComparer.Ordinal),
            [
                .. additions.Select(a => new BenchMovement(a.AddedAtUtc, (double)a.WaterLitres, (double)a.ConcentrateLitres, 0))
                    .Concat(removals.Select(r => new BenchMovement(r.RemovedAtUtc, 0, 0, (double)r.Litres)))
                    .OrderBy(m => m.AtUtc),
            ]);
    }

    private static Estimate? Latest(StandingFacts? facts, string parameter) =>
        facts is not null && facts.Latest.TryGetValue(parameter, out var latest) ? new Estimate((double)latest.Value, (double)latest.Uncertainty) : null;
}
