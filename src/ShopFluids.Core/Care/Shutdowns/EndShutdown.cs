using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Core.Care.Shutdowns;

/// <summary>
/// Ends a shutdown today: one that has not begun does not take place, one that has begun had its last day yesterday. What was to be done
/// before and meanwhile goes; the test before the first cut is due today.
/// </summary>
public sealed record EndShutdown(Guid ShutdownId);

public sealed record ShutdownNotFound(Guid ShutdownId) : Error;

/// <summary>Its last day has passed, or it was withdrawn.</summary>
public sealed record ShutdownIsOver(Guid ShutdownId) : Error;

public sealed class EndShutdownHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<Saved>> HandleAsync(EndShutdown command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (await db.Shutdowns.FirstOrDefaultAsync(s => s.Id == command.ShutdownId, cancellationToken) is not { } shutdown)
        {
            return new ShutdownNotFound(command.ShutdownId);
        }

        var now = clock.UtcNow;
        var today = setup.Calendar.ShopDayOf(now);
        if (shutdown.IsWithdrawn || shutdown.LastDay < today)
        {
            return new ShutdownIsOver(command.ShutdownId);
        }

        var sumps = setup.Sumps.Where(s => shutdown.Concerns(s.Id)).ToList();
        if (shutdown.FirstDay < today)
        {
            shutdown.EndOn(today.AddDays(-1));
        }
        else
        {
            shutdown.Withdraw();
        }

        foreach (var sump in sumps)
        {
            await EndWorkAsync(write, setup, shutdown, sump, actor, now, cancellationToken);
        }

        await write.CommitAsync(new Act(ActCodes.ShutdownEnded, actor, now, sumps.Count == 1 ? sumps[0].Tag : setup.Site?.Name ?? ""), cancellationToken);
        sumps.ForEach(s => news.Publish(s.Id));
        return new Saved(shutdown.Id);
    }

    private async Task EndWorkAsync(ShopWrite write, ShopSetup setup, Shutdown shutdown, Sump sump, Actor actor, DateTime now, CancellationToken cancellationToken)
    {
        var causes = ShutdownWork.CausesOf(shutdown.Id).ToList();
        var calendar = setup.CalendarFor(sump.Id, [.. setup.Shutdowns.Where(s => s.Id != shutdown.Id), shutdown]);
        foreach (var task in await write.Database.CareTasks.Where(t => t.SumpId == sump.Id && t.State == TaskState.Open && causes.Contains(t.Cause)).ToListAsync(cancellationToken))
        {
            if (ShutdownWork.IsAfter(task.Cause) && !shutdown.IsWithdrawn)
            {
                task.Move(ShutdownWork.TestAfter(shutdown.Id, shutdown.LastDay, calendar).DueAt);
            }
            else
            {
                task.End(TaskState.Withdrawn, now, actor.PersonId);
            }
        }

        await new CarePlanner(write.Database, setup, clock).RestoreAsync(sump.Id, calendar, cancellationToken);
        var planner = new ShutdownPlanner(write.Database, setup, clock);
        await write.FlushAsync(cancellationToken);
        foreach (var other in planner.Remaining(shutdown, sump.Id, calendar.ShopDayOf(now)))
        {
            // It gave its work up to the one that ended, and still stands.
            var own = ShutdownWork.CausesOf(other.Id).ToList();
            if (setup.OpenCharge(sump.Id) is { } charge && !await write.Database.CareTasks.AnyAsync(t => t.SumpId == sump.Id && t.State != TaskState.Withdrawn && own.Contains(t.Cause), cancellationToken))
            {
                await planner.PlanAsync(other, sump, charge, calendar, cancellationToken);
            }
        }

        await LateTestFlag.EndWhenNoneIsLateAsync(write, sump.Id, now, actor.PersonId, cancellationToken);
        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
    }
}
