using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Setup;

/// <summary>A lot on hand or used up.</summary>
/// <param name="IsExpired">Its last day lies before today's shop day.</param>
public sealed record LotRow(
    Guid Id,
    Guid FluidId,
    string Number,
    DateOnly ReceivedOn,
    DateOnly ExpiresOn,
    decimal ReceivedLitres,
    decimal RemainingLitres,
    decimal? PricePerLitre,
    string? QuarantineReason,
    bool IsExpired)
{
    public bool IsQuarantined => QuarantineReason is not null;

    /// <summary>May be poured without anybody's leave.</summary>
    public bool IsUsable => !IsExpired && !IsQuarantined && RemainingLitres > 0;
}

/// <summary>The lots of the stores in the order in which they should be used: first expired, first out.</summary>
public sealed class LotsQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public async Task<IReadOnlyList<LotRow>> RunAsync(CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var today = (await setups.CurrentAsync(db, cancellationToken)).Calendar.ShopDayOf(clock.UtcNow);
        return await OfAsync(db, today, cancellationToken);
    }

    /// <param name="only">One lot; null for all.</param>
    internal static async Task<List<LotRow>> OfAsync(ShopFluidsDbContext db, DateOnly today, CancellationToken cancellationToken, Guid? only = null) =>
        await db.FluidLots.AsNoTracking()
            .Where(l => only == null || l.Id == only)
            .OrderBy(l => l.ExpiresOn).ThenBy(l => l.ReceivedOn).ThenBy(l => l.NumberKey)
            .Select(l => new LotRow(
                l.Id,
                l.FluidId,
                l.Number,
                l.ReceivedOn,
                l.ExpiresOn,
                l.ReceivedLitres,
                l.RemainingLitres,
                l.PricePerLitre,
                l.IsQuarantined ? l.QuarantineReason ?? "" : null,
                l.ExpiresOn < today))
            .ToListAsync(cancellationToken);
}
