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
        var moves = await FluidMove.OfAsync(db, sumpIds, fromUtc, toUtc, cancellationToken);
        return [.. moves.GroupBy(m => (Month: setup.Calendar.MonthOf(m.AtUtc), m.FluidId))
            .Select(g => new MonthUse(
                g.Key.Month,
                g.Key.FluidId,
                g.Where(m => m.IsFill).Sum(m => m.ConcentrateLitres),
                g.Where(m => !m.IsFill).Sum(m => m.ConcentrateLitres),
                g.Sum(m => m.WaterLitres),
                g.Sum(m => m.RemovedLitres),
                g.Sum(m => m.Cost),
                g.Sum(m => m.UnpricedLitres)))
            .OrderByDescending(m => m.Month).ThenBy(m => setup.Fluid(m.FluidId).Name, StringComparer.Ordinal)];
    }
}
