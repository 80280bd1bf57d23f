using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Rules;

namespace ShopFluids.Core.Sumps;

/// <summary>What a sump held at a past moment: worked out as a standing's volume is, from what is known of the time before.</summary>
internal static class PastVolume
{
    /// <summary>What the record says that the sump held: for what is entered late that of then, since a level read meanwhile shows it already. L; null where nobody knows.</summary>
    public static async Task<double?> KnownAtAsync(ShopFluidsDbContext db, Sump sump, Guid chargeId, Standing standing, DateTime atUtc, CancellationToken cancellationToken) =>
        standing.Facts?.Latest.TryGetValue(ParameterCodes.Level, out var level) == true && atUtc < level.TakenAt
            ? await AtAsync(db, sump, chargeId, atUtc, cancellationToken)
            : standing.VolumeLitres;

    /// <summary>From the last level read before the moment, plus what was added and less what was removed up to it; before the first level all that went in and out. L.</summary>
    public static async Task<double> AtAsync(ShopFluidsDbContext db, Sump sump, Guid chargeId, DateTime atUtc, CancellationToken cancellationToken)
    {
        var level = await db.Readings.AsNoTracking()
            .Where(r => r.ChargeId == chargeId && r.TakenAtUtc < atUtc && !db.Readings.Any(later => later.SupersedesId == r.Id))
            .SelectMany(r => r.Measurements.Where(m => m.Parameter == ParameterCodes.Level), (r, m) => new { r.TakenAtUtc, r.StoredAtUtc, r.Id, m.Value })
            .OrderByDescending(m => m.TakenAtUtc).ThenByDescending(m => m.StoredAtUtc).ThenByDescending(m => m.Id)
            .FirstOrDefaultAsync(cancellationToken);
        var since = level?.TakenAtUtc ?? DateTime.MinValue.ToUniversalTime();
        var added = await db.Additions.AsNoTracking().Where(a => a.ChargeId == chargeId && a.AddedAtUtc > since && a.AddedAtUtc <= atUtc).ToListAsync(cancellationToken);
        var removed = await db.Removals.AsNoTracking().Where(r => r.ChargeId == chargeId && r.RemovedAtUtc > since && r.RemovedAtUtc <= atUtc).ToListAsync(cancellationToken);
        var start = level is null ? 0 : StandingRebuild.VolumeAt(sump, (decimal)level.Value);
        var litres = start + (double)(added.Sum(a => a.WaterLitres + a.ConcentrateLitres) - removed.Sum(r => r.Litres));
        return Math.Round(Math.Clamp(litres, 0, sump.Geometry.BrimLitres), 1, MidpointRounding.AwayFromZero);
    }
}
