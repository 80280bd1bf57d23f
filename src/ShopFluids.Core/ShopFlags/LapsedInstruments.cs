using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Rules.InstrumentCheck;

namespace ShopFluids.Core.ShopFlags;

/// <summary>Instruments whose check had lapsed when something was read with them.</summary>
internal static class LapsedInstruments
{
    /// <summary>Of these instruments those that were flagged at that time; a check made since does not make the reading any better.</summary>
    public static async Task<List<Guid>> AtAsync(ShopFluidsDbContext db, IReadOnlyList<Guid> instrumentIds, DateTime takenAtUtc, CancellationToken cancellationToken) =>
        instrumentIds.Count == 0
            ? []
            : await db.ShopFlags.AsNoTracking()
                .Where(f => f.Rule == InstrumentCheckRule.Code && instrumentIds.Contains(f.SubjectId) && f.RaisedAtUtc <= takenAtUtc && (f.GoneAtUtc == null || f.GoneAtUtc > takenAtUtc))
                .Select(f => f.SubjectId).Distinct().ToListAsync(cancellationToken);
}
