using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.InstrumentCheck;
using ShopFluids.Rules.Lot;

namespace ShopFluids.Core.ShopFlags;

/// <summary>What the rules find now of lots, stocks and instruments, against what is known.</summary>
internal static class ShopFindings
{
    public static async Task<FindingChanges> ChangesAsync(ShopFluidsDbContext db, ShopSetup setup, DateTime nowUtc, CancellationToken cancellationToken)
    {
        var known = (await db.ShopFlags.AsNoTracking().Where(f => f.GoneAtUtc == null).ToListAsync(cancellationToken)).ConvertAll(f => f.ToKnown());
        var lots = await LotsAsync(db, setup, cancellationToken);
        var found = lots.SelectMany(l => LotRule.Check(l.Facts, setup.Calendar, nowUtc)).ToList();
        var spoilt = found.Select(f => f.SubjectId).ToHashSet();
        var usable = lots.Where(l => !spoilt.Contains(l.Facts.Id)).ToLookup(l => l.FluidId, l => l.Facts.RemainingLitres);
        foreach (var stock in await StocksAsync(db, setup, usable, nowUtc, cancellationToken))
        {
            var isKnown = known.Exists(k => k.Rule == LotRule.Code && k.Aspect == LotRule.LowStock && k.SubjectId == stock.FluidId);
            if (LotRule.Check(stock, isKnown, setup.Calendar, nowUtc) is { } low)
            {
                found.Add(low);
            }
        }

        found.AddRange((await db.Instruments.AsNoTracking().OrderBy(i => i.TagKey).ToListAsync(cancellationToken))
            .Where(i => i.NeedsChecks)
            .Select(i => InstrumentCheckRule.Check(new(i.Id, i.CheckedOn, i.CheckEveryDays ?? InstrumentCheckRule.UsualDays), setup.Calendar, nowUtc))
            .OfType<ShopFinding>());
        return FindingChanges.Of(found, known, nowUtc);
    }

    private static async Task<List<(Guid FluidId, LotFacts Facts)>> LotsAsync(ShopFluidsDbContext db, ShopSetup setup, CancellationToken cancellationToken)
    {
        var keeps = setup.Fluids.Where(f => f.OpenedLifeDays is not null).ToDictionary(f => f.Id, f => f.OpenedLifeDays);
        var lots = await db.FluidLots.AsNoTracking().Where(l => l.RemainingLitres > 0).OrderBy(l => l.ExpiresOn).ThenBy(l => l.Id).ToListAsync(cancellationToken);
        var asked = lots.Where(l => keeps.ContainsKey(l.FluidId)).Select(l => (Guid?)l.Id).ToList();
        var opened = asked.Count == 0
            ? []
            : await db.Additions.AsNoTracking().Where(a => asked.Contains(a.LotId)).GroupBy(a => a.LotId)
                .Select(g => new { LotId = g.Key, At = g.Min(a => a.AddedAtUtc) })
                .ToDictionaryAsync(g => g.LotId ?? Guid.Empty, g => g.At, cancellationToken);
        return lots.ConvertAll(l => (l.FluidId, new LotFacts(
            l.Id,
            l.ExpiresOn,
            l.RemainingLitres,
            l.IsQuarantined,
            opened.TryGetValue(l.Id, out var at) ? setup.Calendar.ShopDayOf(at) : null,
            keeps.GetValueOrDefault(l.FluidId))));
    }

    // Only fluids that some sump holds now: of the others nothing will be wanted.
    internal static async Task<List<StockFacts>> StocksAsync(ShopFluidsDbContext db, ShopSetup setup, ILookup<Guid, decimal> usable, DateTime nowUtc, CancellationToken cancellationToken)
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
            .Select(id => new StockFacts(id, usable[id].Sum(), planned[id].Sum(), used.GetValueOrDefault(id) / LotRule.UseDays))];
    }

    private static decimal RefillLitres(ShopSetup setup, Charges.Charge charge) => setup.FindSump(charge.SumpId) is { } sump
        ? (decimal)sump.Geometry.VolumeLitresAt((double)sump.FullMarkMm) * setup.Fluid(charge.FluidId).TargetPercent / 100
        : 0;
}
