using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Limits.Effects;

/// <summary>Reads what drafted limits are tried on: the readings of a fluid or a sump in the last 90 days that count.</summary>
public sealed class LimitsPastQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public const int Days = 90;

    /// <param name="fluidId">Whose limits are drafted; null where they are a sump's.</param>
    /// <param name="sumpId">Null where they are a fluid's.</param>
    public async Task<LimitsPast> RunAsync(Guid? fluidId, Guid? sumpId, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var now = clock.UtcNow;
        var from = now.AddDays(-Days);
        var charges = await db.Charges.AsNoTracking()
            .Where(c => (c.DrainedAtUtc == null || c.DrainedAtUtc >= from) && (sumpId == null ? c.FluidId == fluidId : c.SumpId == sumpId))
            .OrderBy(c => c.FilledAtUtc)
            .ToListAsync(cancellationToken);
        var ids = charges.ConvertAll(c => c.Id);
        var firstPh = await FirstPhAsync(db, ids, cancellationToken);

        // Not whole readings: each carries its stored outcome, which is long.
        var measured = await db.Readings.AsNoTracking()
            .Where(r => ids.Contains(r.ChargeId) && r.TakenAtUtc >= from && !db.Readings.Any(later => later.SupersedesId == r.Id))
            .OrderBy(r => r.TakenAtUtc).ThenBy(r => r.Id)
            .SelectMany(r => r.Measurements, (r, m) => new { r.Id, r.SumpId, r.ChargeId, r.TakenAtUtc, m.Parameter, m.Method, m.Value, m.Uncertainty })
            .ToListAsync(cancellationToken);
        var fluids = charges.ToDictionary(c => c.Id, c => c.FluidId);
        var readings = measured.GroupBy(m => m.Id).Select(g => new PastReading(
            g.First().SumpId,
            fluids[g.First().ChargeId],
            new ReadingFacts(g.Key, g.First().TakenAtUtc, [.. g.Select(m => new MeasurementFacts(m.Parameter, m.Method, (decimal)m.Value, (decimal)m.Uncertainty))]),
            firstPh.TryGetValue(g.First().ChargeId, out var first) && first.AtUtc < g.First().TakenAtUtc ? first.Value : null)).ToList();
        var past = sumpId is { } one && setup.FindSump(one) is { } sump
            ? new SumpPast(sump, await new SumpHistoryReader(db, setup, one, from, now.AddDays(1)).ReadAsync(cancellationToken), charges)
            : null;
        return new(setup, fluidId, sumpId, from, now, readings, past);
    }

    // The first pH of a charge may lie before the 90 days.
    private static async Task<Dictionary<Guid, (DateTime AtUtc, decimal Value)>> FirstPhAsync(ShopFluidsDbContext db, List<Guid> chargeIds, CancellationToken cancellationToken)
    {
        var values = await db.Readings.AsNoTracking()
            .Where(r => chargeIds.Contains(r.ChargeId) && !db.Readings.Any(later => later.SupersedesId == r.Id))
            .SelectMany(r => r.Measurements.Where(m => m.Parameter == ParameterCodes.Ph), (r, m) => new { r.Id, r.ChargeId, r.TakenAtUtc, r.StoredAtUtc, m.Value })
            .ToListAsync(cancellationToken);
        return values.GroupBy(v => v.ChargeId).ToDictionary(
            g => g.Key,
            g => g.OrderBy(v => v.TakenAtUtc).ThenBy(v => v.StoredAtUtc).ThenBy(v => v.Id).Select(v => (v.TakenAtUtc, (decimal)v.Value)).First());
    }
}
