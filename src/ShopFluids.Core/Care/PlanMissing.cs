using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Care;

/// <summary>
/// Looks through the whole shop for steps that have lost their task, and plans it: one task for each step from today on, however long nobody
/// looked. Every write plans for itself, so there is nothing to find unless rows came from elsewhere. Safe on any number of instances: the
/// writers' lock makes them take turns, and the database holds at most one open task for a sump, kind and cause.
/// </summary>
public sealed class PlanMissingHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    /// <returns>How many sumps were planned anew.</returns>
    public async Task<int> HandleAsync(CancellationToken cancellationToken)
    {
        // A look without the lock first: it must not make writers wait.
        await using (var db = await database.ReadAsync(cancellationToken))
        {
            if (!await SumpsMissingWork(db).AnyAsync(cancellationToken))
            {
                return 0;
            }
        }

        await using var write = await database.WriteAsync(cancellationToken);
        var setup = await setups.ForAsync(write, cancellationToken);
        var planner = new CarePlanner(write.Database, setup, clock);
        var planned = new List<Guid>();
        foreach (var sumpId in await SumpsMissingWork(write.Database).Distinct().Order().ToListAsync(cancellationToken))
        {
            if (setup.FindSump(sumpId) is { } sump)
            {
                await planner.PlanMissingAsync(sumpId, cancellationToken);
                await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
                planned.Add(sumpId);
            }
        }

        await write.CommitAsync(new Act(ActCodes.WorkPlanned, Actor.Program, clock.UtcNow, ""), cancellationToken);
        planned.ForEach(news.Publish);
        return planned.Count;
    }

    /// <summary>The sumps in use of which a recurring step has no open task, once for each such step.</summary>
    internal static IQueryable<Guid> SumpsMissingWork(ShopFluidsDbContext db) =>
        from step in db.CareSteps
        join plan in db.CarePlans on step.CarePlanId equals plan.Id
        where !step.IsStopped && step.Basis != IntervalBasis.AfterFill && step.Basis != IntervalBasis.AfterFlag
            && db.Charges.Any(c => c.SumpId == plan.SumpId && c.DrainedAtUtc == null)
            && !db.CareTasks.Any(t => t.SumpId == plan.SumpId && t.State == TaskState.Open && t.StepId == step.Id)
        select plan.SumpId;
}
