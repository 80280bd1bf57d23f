using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Care;

/// <summary>How urgently a sump needs somebody: what its flags, its late work and its fluid say.</summary>
internal static class SumpPriority
{
    /// <param name="facts">Null where nothing is known of it.</param>
    /// <param name="prices">As <see cref="PricesAsync"/> answers.</param>
    public static WorkPriority Of(ShopSetup setup, Sump sump, StandingFacts? facts, double? volumeLitres, IReadOnlyDictionary<Guid, decimal> prices, DateTime nowUtc)
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(sump);
        ArgumentNullException.ThrowIfNull(prices);
        var late = facts?.OpenTasks.Where(t => t.DueAt <= nowUtc).ToList() ?? [];
        var steps = setup.StepFactsOf(sump.Id);
        return new(
            facts?.OpenFlags.Any(f => f.Severity == Verdict.Action) == true,
            late.Select(t => WorkPriority.QuartersLate(t.DueAt, steps.GetValueOrDefault(t.Cause), nowUtc)).DefaultIfEmpty(0).Max(),
            CostOf(setup, sump, volumeLitres, prices),
            setup.MachinesOf(sump).Sum(m => m.WeeklyHours));
    }

    /// <summary>What a litre of each fluid cost when it was last received with a price.</summary>
    public static async Task<IReadOnlyDictionary<Guid, decimal>> PricesAsync(ShopFluidsDbContext db, CancellationToken cancellationToken) =>
        (await db.FluidLots.AsNoTracking().Where(l => l.PricePerLitre != null).Select(l => new { l.Id, l.FluidId, l.ReceivedOn, Price = l.PricePerLitre ?? 0 }).ToListAsync(cancellationToken))
            .GroupBy(l => l.FluidId)
            .ToDictionary(g => g.Key, g => g.OrderBy(l => l.ReceivedOn).ThenBy(l => l.Id).Last().Price);

    // By the concentration that the fluid is run at: what was read last moves with every top-up, and a list that follows it would jump about.
    private static decimal CostOf(ShopSetup setup, Sump sump, double? volumeLitres, IReadOnlyDictionary<Guid, decimal> prices) =>
        volumeLitres is { } litres && setup.OpenCharge(sump.Id) is { } charge && prices.TryGetValue(charge.FluidId, out var price)
            ? decimal.Round((decimal)litres * setup.Fluid(charge.FluidId).TargetPercent / 100 * price, 2)
            : 0;
}
