using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Stores;

/// <summary>What went into sumps and out of them in one month of shop days, of one fluid.</summary>
/// <param name="Month">Its first day.</param>
/// <param name="FillLitres">Concentrate for fills, L.</param>
/// <param name="AddedLitres">Concentrate for additions, L.</param>
/// <param name="WaterLitres">Water, L.</param>
/// <param name="RemovedLitres">Fluid taken out, L.</param>
/// <param name="Cost">Of the concentrate, in the site's currency.</param>
/// <param name="UnpricedLitres">Concentrate from lots without a price: not in the cost, L.</param>
public sealed record MonthUse(DateOnly Month, Guid FluidId, decimal FillLitres, decimal AddedLitres, decimal WaterLitres, decimal RemovedLitres, decimal Cost, decimal UnpricedLitres)
{
    public decimal ConcentrateLitres => FillLitres + AddedLitres;
}

/// <summary>Adds up what was used, month by month.</summary>
internal static class FluidUse
{
    /// <param name="sumpIds">Only these sumps; null for the whole shop.</param>
    /// <param name="fromUtc">The first instant.</param>
    /// <param name="toUtc">The last.</param>
    public static async Task<IReadOnlyList<MonthUse>> OfAsync(ShopFluidsDbContext db, ShopSetup setup, IReadOnlyCollection<Guid>? sumpIds, DateTime fromUtc, DateTime toUtc, CancellationToken cancellationToken)
    {
        var charges = db.Charges.AsNoTracking().Where(c => c.DrainedAtUtc == null || c.DrainedAtUtc >= fromUtc);
        if (sumpIds is not null)
        {
            charges = charges.Where(c => sumpIds.Contains(c.SumpId));
        }

        var added = await (
            from charge in charges
            join addition in db.Additions on charge.Id equals addition.ChargeId
            join lot in db.FluidLots on addition.LotId equals lot.Id into lots
            from lot in lots.DefaultIfEmpty()
            where addition.AddedAtUtc >= fromUtc && addition.AddedAtUtc <= toUtc
            select new { charge.FluidId, charge.FilledAtUtc, addition.AddedAtUtc, addition.ReadingId, addition.ConcentrateLitres, addition.WaterLitres, Price = lot == null ? null : lot.PricePerLitre })
            .ToListAsync(cancellationToken);
        var removed = await (
            from charge in charges
            join removal in db.Removals on charge.Id equals removal.ChargeId
            where removal.RemovedAtUtc >= fromUtc && removal.RemovedAtUtc <= toUtc
            select new { charge.FluidId, removal.RemovedAtUtc, removal.Litres }).ToListAsync(cancellationToken);

        var moves = added.Select(a =>
        {
            var isFill = Addition.IsFill(a.AddedAtUtc, a.ReadingId, a.FilledAtUtc);
            return new MonthUse(
                setup.Calendar.MonthOf(a.AddedAtUtc),
                a.FluidId,
                isFill ? a.ConcentrateLitres : 0,
                isFill ? 0 : a.ConcentrateLitres,
                a.WaterLitres,
                0,
                a.ConcentrateLitres * (a.Price ?? 0),
                a.Price is null ? a.ConcentrateLitres : 0);
        }).Concat(removed.Select(r => new MonthUse(setup.Calendar.MonthOf(r.RemovedAtUtc), r.FluidId, 0, 0, 0, r.Litres, 0, 0)));
        return [.. moves.GroupBy(m => (m.Month, m.FluidId))
            .Select(g => new MonthUse(
                g.Key.Month,
                g.Key.FluidId,
                g.Sum(m => m.FillLitres),
                g.Sum(m => m.AddedLitres),
                g.Sum(m => m.WaterLitres),
                g.Sum(m => m.RemovedLitres),
                g.Sum(m => m.Cost),
                g.Sum(m => m.UnpricedLitres)))
            .OrderByDescending(m => m.Month).ThenBy(m => setup.Fluid(m.FluidId).Name, StringComparer.Ordinal)];
    }
}
