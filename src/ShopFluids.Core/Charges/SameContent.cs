using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Charges;

/// <summary>
/// Whether an id that comes again brings what was stored under it. Then it was sent twice and is done once; with anything else it is a
/// mistake of the sender, which must be told. Reasons and persons are not compared: they do not change what was poured. Nor is the time of an
/// addition: the page takes the moment of pressing its button, and a button that is pressed twice adds once.
/// </summary>
internal static class SameContent
{
    private const int StoredDecimals = 6;

    public static async Task<bool> IsAdditionAsync(ShopFluidsDbContext db, Addition stored, Sump sump, RecordAddition command, CancellationToken cancellationToken) =>
        IsSame(stored, command.WaterLitres, command.ConcentrateLitres, command.LotId)
        && stored.ReadingId == command.ReadingId
        && await db.Charges.AnyAsync(c => c.Id == stored.ChargeId && c.SumpId == sump.Id, cancellationToken)
        && await IsSwapAsync(db, stored, Stored(command.RemovedLitres), cancellationToken);

    public static async Task<bool> IsFillAsync(ShopFluidsDbContext db, Charge stored, Sump? sump, FillSump command, CancellationToken cancellationToken) =>
        stored.SumpId == sump?.Id
        && stored.FluidId == command.FluidId
        && stored.FilledAtUtc == ShopClock.ToMillisecond(command.FilledAtUtc)
        && (await db.Additions.Where(a => a.ChargeId == stored.Id && a.AddedAtUtc == stored.FilledAtUtc).ToListAsync(cancellationToken))
            .Exists(a => IsSame(a, command.WaterLitres, command.ConcentrateLitres, command.LotId));

    public static async Task<bool> IsDrainAsync(ShopFluidsDbContext db, Removal stored, Sump? sump, DrainSump command, CancellationToken cancellationToken) =>
        sump is not null
        && stored.Reason == RemovalReasons.Drain
        && stored.RemovedAtUtc == ShopClock.ToMillisecond(command.DrainedAtUtc)
        && stored.Litres == Stored(command.DrainedLitres)
        && await db.Charges.AnyAsync(c => c.Id == stored.ChargeId && c.SumpId == sump.Id, cancellationToken);

    // Where no concentrate was drawn, no lot is stored, whichever was chosen.
    private static bool IsSame(Addition stored, decimal water, decimal concentrate, Guid? lotId) =>
        stored.WaterLitres == Stored(water)
        && stored.ConcentrateLitres == Stored(concentrate)
        && (concentrate == 0 || stored.LotId == lotId);

    // What was taken out first carries the addition's id.
    private static async Task<bool> IsSwapAsync(ShopFluidsDbContext db, Addition stored, decimal litres, CancellationToken cancellationToken)
    {
        var removed = await db.Removals.AsNoTracking()
            .Where(r => r.ChargeId == stored.ChargeId && r.RemovedAtUtc == stored.AddedAtUtc && r.Reason == RemovalReasons.Swap)
            .ToListAsync(cancellationToken);
        return litres == 0 ? !removed.Exists(r => r.Id == stored.Id) : removed.Exists(r => r.Litres == litres);
    }

    private static decimal Stored(decimal litres) => decimal.Round(litres, StoredDecimals, MidpointRounding.AwayFromZero);
}
