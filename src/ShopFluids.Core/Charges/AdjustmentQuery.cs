using Microsoft.EntityFrameworkCore;
using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Rules;

namespace ShopFluids.Core.Charges;

/// <summary>What somebody needs to note that an adjustment was made.</summary>
/// <param name="Recipe">Null where a level or a concentration was missing to make one.</param>
/// <param name="ReadingId">The reading that the recipe was made from, or that led to the task.</param>
/// <param name="Lots">Lots of the fluid that hold anything, first to expire first.</param>
public sealed record Adjustment(Guid TaskId, string SumpTag, string FluidName, TopUpRecipe? Recipe, Guid? ReadingId, IReadOnlyList<LotChoice> Lots);

public sealed class AdjustmentQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <summary>Null when the task is open no more, or its sump stands empty.</summary>
    public async Task<Adjustment?> RunAsync(Guid taskId, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var task = await db.CareTasks.AsNoTracking().FirstOrDefaultAsync(t => t.Id == taskId && t.Kind == TaskKind.Adjust && t.State == TaskState.Open, cancellationToken);
        if (task is null || setup.FindSump(task.SumpId) is not { } sump || setup.OpenCharge(sump.Id) is not { } charge)
        {
            return null;
        }

        return new(
            task.Id,
            sump.Tag,
            setup.Fluid(charge.FluidId).Name,
            task.Recipe,
            await ReadingOfAsync(db, task, charge, task.Recipe, cancellationToken),
            await LotChoices.OfFluidAsync(db, charge.FluidId, setup.Calendar.ShopDayOf(clock.UtcNow), cancellationToken));
    }

    // A task follows the recipe of later readings: the addition belongs to the reading that gave this one, so that its page shows it as added.
    private static async Task<Guid?> ReadingOfAsync(ShopFluidsDbContext db, CareTask task, Charge charge, TopUpRecipe? recipe, CancellationToken cancellationToken)
    {
        var since = await db.Readings.AsNoTracking()
            .Where(r => r.ChargeId == charge.Id && r.StoredAtUtc >= task.CreatedAtUtc)
            .OrderByDescending(r => r.TakenAtUtc).ThenByDescending(r => r.StoredAtUtc)
            .Select(r => new { r.Id, r.Outcome })
            .ToListAsync(cancellationToken);
        return (recipe is null ? null : since.Find(r => r.Outcome?.Recipe == recipe)?.Id) ?? since.Find(r => r.Id == task.ReadingId)?.Id;
    }
}
