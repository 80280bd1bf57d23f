using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Sumps;

/// <summary>What a standing must say, worked out from the history alone.</summary>
/// <param name="VolumeLitres">From the latest level, plus what was added and less what was removed since; before the first level all that went in and out.</param>
internal sealed record StandingRebuild(Guid? ChargeId, StandingFacts? Facts, DateTime? LastReadAtUtc, double? VolumeLitres)
{
    /// <param name="withoutReading">A reading that is about to be superseded.</param>
    public static async Task<StandingRebuild> FromHistoryAsync(ShopFluidsDbContext db, Sump sump, CancellationToken cancellationToken, Guid? withoutReading = null)
    {
        var charge = await db.Charges.AsNoTracking().FirstOrDefaultAsync(c => c.SumpId == sump.Id && c.DrainedAtUtc == null, cancellationToken);
        var tasks = await db.CareTasks.AsNoTracking().Where(t => t.SumpId == sump.Id && t.State == TaskState.Open).ToListAsync(cancellationToken);
        if (charge is null)
        {
            return new(null, tasks.Count == 0 ? null : StandingFold.Fresh(DateTime.UnixEpoch, tasks.Select(t => t.ToOpen())), null, null);
        }

        // Not whole readings: each carries its stored outcome, which is long, and this runs with most writes.
        var measured = await db.Readings.AsNoTracking()
            .Where(r => r.ChargeId == charge.Id && r.Id != withoutReading && !db.Readings.Any(later => later.SupersedesId == r.Id))
            .OrderBy(r => r.TakenAtUtc).ThenBy(r => r.StoredAtUtc).ThenBy(r => r.Id)
            .SelectMany(r => r.Measurements, (r, m) => new { r.Id, r.TakenAtUtc, Measurement = m })
            .ToListAsync(cancellationToken);
        var flags = await db.Flags.AsNoTracking().Where(f => f.SumpId == sump.Id && f.EndedAtUtc == null).ToListAsync(cancellationToken);
        var facts = StandingFold.Fresh(charge.FilledAtUtc, [], await LastMovedAsync(db, charge.Id, cancellationToken));
        foreach (var reading in measured.GroupBy(m => (m.TakenAtUtc, m.Id)))
        {
            facts = StandingFold.Add(facts, reading.Key.TakenAtUtc, reading.Select(m => m.Measurement));
        }

        facts = StandingFold.With(facts, flags.Select(f => f.ToOpen()), tasks.Select(t => t.ToOpen()));
        var movements = await MovementsAsync(db, charge.Id, facts, cancellationToken);
        return new(charge.Id, facts, measured.Count == 0 ? null : measured[^1].TakenAtUtc, VolumeNow(sump, facts, movements));
    }

    public void ApplyTo(Standing standing) => standing.Set(ChargeId, Facts, LastReadAtUtc, VolumeLitres);

    /// <summary>The volume at a level alone, L, to 0.1 L.</summary>
    public static double VolumeAt(Sump sump, decimal levelMm) => Math.Round(sump.Geometry.VolumeLitresAt((double)levelMm), 1, MidpointRounding.AwayFromZero);

    private static async Task<DateTime?> LastMovedAsync(ShopFluidsDbContext db, Guid chargeId, CancellationToken cancellationToken)
    {
        var added = await db.Additions.Where(a => a.ChargeId == chargeId).MaxAsync(a => (DateTime?)a.AddedAtUtc, cancellationToken);
        var removed = await db.Removals.Where(r => r.ChargeId == chargeId).MaxAsync(r => (DateTime?)r.RemovedAtUtc, cancellationToken);
        return added is null || removed > added ? removed : added;
    }

    private static async Task<decimal> MovementsAsync(ShopFluidsDbContext db, Guid chargeId, StandingFacts facts, CancellationToken cancellationToken)
    {
        var since = facts.Latest.TryGetValue(ParameterCodes.Level, out var level) ? level.TakenAt : DateTime.MinValue.ToUniversalTime();
        var additions = await db.Additions.AsNoTracking().Where(a => a.ChargeId == chargeId && a.AddedAtUtc > since).ToListAsync(cancellationToken);
        var removals = await db.Removals.AsNoTracking().Where(r => r.ChargeId == chargeId && r.RemovedAtUtc > since).ToListAsync(cancellationToken);
        return additions.Sum(a => a.WaterLitres + a.ConcentrateLitres) - removals.Sum(r => r.Litres);
    }

    /// <summary>From the latest level and what was moved since; before the first level the fill itself is among the movements: the sump stood empty.</summary>
    public static double VolumeNow(Sump sump, StandingFacts facts, decimal movements)
    {
        var start = facts.Latest.TryGetValue(ParameterCodes.Level, out var level) ? VolumeAt(sump, level.Value) : 0;
        return Math.Round(Math.Clamp(start + (double)movements, 0, sump.Geometry.BrimLitres), 1, MidpointRounding.AwayFromZero);
    }
}
