using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Readings.Corrections;

/// <summary>Whether a reading can be corrected: once, and while its charge is in the sump.</summary>
internal static class ReadingCorrection
{
    public static async Task<Error?> CheckAsync(ShopFluidsDbContext db, Guid supersededId, Charge charge, CancellationToken cancellationToken) =>
        !await db.Readings.AnyAsync(r => r.Id == supersededId && r.ChargeId == charge.Id, cancellationToken) ? new ReadingNotFound(supersededId)
        : await db.Readings.AnyAsync(r => r.SupersedesId == supersededId, cancellationToken) ? new AlreadySuperseded(supersededId)
        : null;

    /// <summary>What the reading that is corrected held; nothing where none is.</summary>
    public static async Task<IReadOnlyList<Measurement>> HeldAsync(ShopFluidsDbContext db, Guid? supersededId, CancellationToken cancellationToken) =>
        supersededId is null ? [] : await db.Measurements.AsNoTracking().Where(m => m.ReadingId == supersededId).ToListAsync(cancellationToken);
}
