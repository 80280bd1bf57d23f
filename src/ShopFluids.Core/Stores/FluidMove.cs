using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Stores;

/// <summary>Something that was put into a sump or taken out of it, with what its concentrate cost.</summary>
/// <param name="PricePerLitre">Of the lot; null where it has none.</param>
internal sealed record FluidMove(Guid SumpId, Guid FluidId, DateTime AtUtc, MovementKind Kind, decimal WaterLitres, decimal ConcentrateLitres, decimal RemovedLitres, decimal? PricePerLitre)
{
    public bool IsFill => Kind == MovementKind.Fill;

    public decimal Cost => ConcentrateLitres * (PricePerLitre ?? 0);

    public decimal UnpricedLitres => PricePerLitre is null ? ConcentrateLitres : 0;

    /// <param name="sumpIds">Only these sumps; null for the whole shop.</param>
    /// <param name="fromUtc">The first instant.</param>
    /// <param name="toUtc">The last.</param>
    public static async Task<IReadOnlyList<FluidMove>> OfAsync(ShopFluidsDbContext db, IReadOnlyCollection<Guid>? sumpIds, DateTime fromUtc, DateTime toUtc, CancellationToken cancellationToken)
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
            select new { charge.SumpId, charge.FluidId, charge.FilledAtUtc, addition.AddedAtUtc, addition.ReadingId, addition.ConcentrateLitres, addition.WaterLitres, Price = lot == null ? null : lot.PricePerLitre })
            .ToListAsync(cancellationToken);
        var removed = await (
            from charge in charges
            join removal in db.Removals on charge.Id equals removal.ChargeId
            where removal.RemovedAtUtc >= fromUtc && removal.RemovedAtUtc <= toUtc
            select new { charge.SumpId, charge.FluidId, removal.RemovedAtUtc, removal.Reason, removal.Litres }).ToListAsync(cancellationToken);
        return
        [
            .. added.Select(a => new FluidMove(
                a.SumpId, a.FluidId, a.AddedAtUtc, Addition.IsFill(a.AddedAtUtc, a.ReadingId, a.FilledAtUtc) ? MovementKind.Fill : MovementKind.Addition, a.WaterLitres, a.ConcentrateLitres, 0, a.Price)),
            .. removed.Select(r => new FluidMove(r.SumpId, r.FluidId, r.RemovedAtUtc, r.Reason == RemovalReasons.Drain ? MovementKind.Drain : MovementKind.Removal, 0, 0, r.Litres, null)),
        ];
    }
}
