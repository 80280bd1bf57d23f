using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Record.Sealing;

/// <summary>How the end of the record stands to seals.</summary>
/// <param name="LastSeal">The seal of the last entry; null where it has none.</param>
/// <param name="IsSealed">Whether any entry carries a seal.</param>
public sealed record SealStanding(RecordFingerprint Head, string? LastSeal, bool IsSealed);

public sealed class SealStandingQuery(ShopDatabase database)
{
    public async Task<SealStanding> RunAsync(CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        return await OfAsync(db, cancellationToken);
    }

    // The entries themselves are asked, not the head: whoever cut off the head has not taken the seals away.
    internal static async Task<SealStanding> OfAsync(ShopFluidsDbContext db, CancellationToken cancellationToken)
    {
        var last = await db.RecordEntries.OrderByDescending(e => e.Sequence).Select(e => new { e.Sequence, e.Hash, e.Seal }).FirstOrDefaultAsync(cancellationToken);
        return last is null
            ? new(RecordFingerprint.OfNothing, null, IsSealed: false)
            : new(new(last.Sequence, last.Hash), last.Seal, last.Seal is not null || await db.RecordEntries.AnyAsync(e => e.Seal != null, cancellationToken));
    }
}
