using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Time;
using ShopFluids.Rules.Lot;

namespace ShopFluids.Core.Stores;

/// <summary>The stores: what is on hand of each fluid, how long it lasts, and what was used month by month.</summary>
/// <param name="Fluids">By name; those that nobody has and nobody uses are left out.</param>
/// <param name="Months">The latest first, of every fluid that was used in it.</param>
public sealed record StoresNow(DateTime AtUtc, DateOnly Today, ShopSetup Setup, IReadOnlyList<FluidStock> Fluids, IReadOnlyList<MonthUse> Months);

/// <summary>A fluid in the stores.</summary>
/// <param name="Lots">In the order in which they should be used: first those that may be used, the first to expire first.</param>
/// <param name="UsableLitres">On hand in lots that may be used, L.</param>
/// <param name="UsedPerDayLitres">Concentrate added to sumps each day, from the last <see cref="LotRule.UseDays"/> days; fills are not counted, L.</param>
/// <param name="PlannedLitres">For the refills of the next <see cref="LotRule.HorizonDays"/> days, L.</param>
/// <param name="ReorderAtLitres">Order when less than this is usable: what the next <see cref="LotRule.HorizonDays"/> days want, L.</param>
public sealed record FluidStock(
    Guid FluidId, string Name, IReadOnlyList<StoredLot> Lots, decimal UsableLitres, decimal UsedPerDayLitres, decimal PlannedLitres, decimal ReorderAtLitres)
{
    public bool IsLow => ReorderAtLitres > 0 && UsableLitres < ReorderAtLitres;

    /// <summary>
    /// On what day the usable lots are used up at the present rate, planned refills taken off first, or the last of them may be used no longer; null
    /// where nothing is used or it lasts for more than three years.
    /// </summary>
    public DateOnly? LastsUntil(DateOnly today)
    {
        const int Most = 3 * 366;
        if (UsedPerDayLitres <= 0)
        {
            return null;
        }

        var rest = Math.Max(0, UsableLitres - PlannedLitres);
        var days = (int)Math.Min(rest / UsedPerDayLitres, Most + 1);
        var usable = Lots.Where(l => l.Lot is { RemainingLitres: > 0, QuarantineReason: null } && l.UseUntil >= today);
        days = Math.Min(days, usable.Select(l => l.UseUntil.DayNumber - today.DayNumber).DefaultIfEmpty(days).Max());
        return days > Most ? null : today.AddDays(days);
    }
}

/// <summary>A lot on hand or used up.</summary>
/// <param name="OpenedOn">The shop day on which it was first drawn from; null where it never was.</param>
/// <param name="UseUntil">The last day on which it may be used: its expiry, or earlier where it keeps for so many days once opened.</param>
public sealed record StoredLot(LotRow Lot, DateOnly? OpenedOn, DateOnly UseUntil, bool IsOpenTooLong)
{
    public bool IsUsable => Lot.IsUsable && !IsOpenTooLong;
}

public sealed class StoresQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <summary>How many months back use and cost are shown.</summary>
    public const int Months = 12;

    public async Task<StoresNow> RunAsync(CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var now = clock.UtcNow;
        var today = setup.Calendar.ShopDayOf(now);
        var lots = await LotsQuery.OfAsync(db, today, cancellationToken);
        var opened = (await db.Additions.AsNoTracking().Where(a => a.LotId != null).GroupBy(a => a.LotId)
                .Select(g => new { LotId = g.Key, At = g.Min(a => a.AddedAtUtc) }).ToListAsync(cancellationToken))
            .ToDictionary(g => g.LotId ?? Guid.Empty, g => setup.Calendar.ShopDayOf(g.At));
        var stored = lots.Select(l => Stored(setup, l, opened.TryGetValue(l.Id, out var day) ? day : null, today)).ToLookup(l => l.Lot.FluidId);
        var usable = stored.SelectMany(g => g).Where(l => l.IsUsable).ToLookup(l => l.Lot.FluidId, l => l.Lot.RemainingLitres);
        var wanted = (await ShopFindings.WantedAsync(db, setup, now, cancellationToken)).ToDictionary(s => s.FluidId);
        var fluids = setup.Fluids.Where(f => stored.Contains(f.Id) || wanted.ContainsKey(f.Id)).Select(f =>
        {
            var need = wanted.GetValueOrDefault(f.Id);
            var perDay = (need?.UsedLitres ?? 0) / LotRule.UseDays;
            return new FluidStock(
                f.Id,
                f.Name,
                [.. stored[f.Id].OrderBy(l => l.IsUsable ? 0 : l.Lot.RemainingLitres > 0 ? 1 : 2).ThenBy(l => l.UseUntil).ThenBy(l => l.Lot.ReceivedOn)],
                usable[f.Id].Sum(),
                perDay,
                need?.PlannedLitres ?? 0,
                (need?.PlannedLitres ?? 0) + (perDay * LotRule.HorizonDays));
        });
        var use = await FluidUse.OfAsync(db, setup, null, setup.Calendar.StartOf(new DateOnly(today.Year, today.Month, 1).AddMonths(1 - Months)), now, cancellationToken);
        return new(now, today, setup, [.. fluids], use);
    }

    private static StoredLot Stored(ShopSetup setup, LotRow lot, DateOnly? openedOn, DateOnly today)
    {
        var keeps = setup.Fluid(lot.FluidId).OpenedLifeDays;
        var openUntil = openedOn is { } opened && keeps is { } days ? opened.AddDays(days) : lot.ExpiresOn;
        return new(lot, openedOn, openUntil < lot.ExpiresOn ? openUntil : lot.ExpiresOn, lot.RemainingLitres > 0 && openUntil < today && openUntil < lot.ExpiresOn);
    }
}
