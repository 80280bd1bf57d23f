using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Lot;

namespace ShopFluids.Core.ShopFlags;

/// <summary>What the rules find now of lots, stocks and instruments, against what is known.</summary>
internal static class ShopFindings
{
    public static async Task<FindingChanges> ChangesAsync(ShopFluidsDbContext db, ShopSetup setup, DateTime nowUtc, CancellationToken cancellationToken)
    {
        var known = (await db.ShopFlags.AsNoTracking().Where(f => f.GoneAtUtc == null).ToListAsync(cancellationToken)).ConvertAll(f => f.ToKnown());
        var instruments = await db.Instruments.AsNoTracking().OrderBy(i => i.TagKey).ToListAsync(cancellationToken);
        var facts = new StoresFacts(
            setup.Calendar,
            known,
            await LotsAsync(db, setup, cancellationToken),
            await WantedAsync(db, setup, nowUtc, cancellationToken),
            [.. instruments.Where(i => i.NeedsChecks).Select(StoresFacts.Of)]);
        return facts.Changes(nowUtc);
    }

    private static async Task<List<LotOnHand>> LotsAsync(ShopFluidsDbContext db, ShopSetup setup, CancellationToken cancellationToken)
    {
        var keeps = setup.Fluids.Where(f => f.OpenedLifeDays is not null).ToDictionary(f => f.Id, f => f.OpenedLifeDays);
        var lots = await db.FluidLots.AsNoTracking().Where(l => l.RemainingLitres > 0).OrderBy(l => l.ExpiresOn).ThenBy(l => l.Id).ToListAsync(cancellationToken);
        var asked = lots.Where(l => keeps.ContainsKey(l.FluidId)).Select(l => (Guid?)l.Id).ToList();
        var opened = asked.Count == 0
            ? []
            : await db.Additions.AsNoTracking().Where(a => asked.Contains(a.LotId)).GroupBy(a => a.LotId)
                .Select(g => new { LotId = g.Key, At = g.Min(a => a.AddedAtUtc) })
                .ToDictionaryAsync(g => g.LotId ?? Guid.Empty, g => g.At, cancellationToken);
        return lots.ConvertAll(l => StoresFacts.Of(l, opened.TryGetValue(l.Id, out var at) ? at : null, keeps.GetValueOrDefault(l.FluidId), setup.Calendar));
    }

    // Only fluids that some sump holds now: of the others nothing will be wanted.
    internal static async Task<List<WantedFluid>> WantedAsync(ShopFluidsDbContext db, ShopSetup setup, DateTime nowUtc, CancellationToken cancellationToken)
    {
        var (since, until) = (nowUtc.AddDays(-LotRule.UseDays), nowUtc.AddDays(LotRule.HorizonDays));
        var poured = await db.Charges.AsNoTracking()
            .Where(c => c.DrainedAtUtc == null || c.DrainedAtUtc > since)
            .Join(db.Additions, c => c.Id, a => a.ChargeId, (c, a) => new { c.FluidId, c.FilledAtUtc, a.AddedAtUtc, a.ConcentrateLitres })
            .Where(a => a.AddedAtUtc > since && a.AddedAtUtc > a.FilledAtUtc && a.ConcentrateLitres > 0)
            .Select(a => new { a.FluidId, a.ConcentrateLitres })
            .ToListAsync(cancellationToken);
        var used = poured.GroupBy(a => a.FluidId).ToDictionary(g => g.Key, g => g.Sum(a => a.ConcentrateLitres));
        var drained = await db.CareTasks.AsNoTracking()
            .Where(t => t.State == TaskState.Open && t.Kind == TaskKind.DrainClean && t.DueAtUtc <= until)
            .Select(t => t.SumpId).Distinct().ToListAsync(cancellationToken);
        var planned = drained.Select(id => setup.OpenCharge(id)).OfType<Charges.Charge>().ToLookup(c => c.FluidId, c => RefillLitres(setup, c));
        return [.. setup.Sumps.Select(s => setup.OpenCharge(s.Id)?.FluidId).OfType<Guid>().Distinct()
            .Select(id => new WantedFluid(id, planned[id].Sum(), used.GetValueOrDefault(id)))];
    }

    private static decimal RefillLitres(ShopSetup setup, Charges.Charge charge) => setup.FindSump(charge.SumpId) is { } sump ? StoresFacts.RefillLitres(sump, setup.Fluid(charge.FluidId)) : 0;
}
