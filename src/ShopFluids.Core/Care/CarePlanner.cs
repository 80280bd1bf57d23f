using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Core.Care;

/// <summary>Makes the tasks that the steps of a care plan call for; at most one is open for each step.</summary>
internal sealed class CarePlanner(ShopFluidsDbContext db, ShopSetup setup, ShopClock clock)
{
    /// <summary>Gives every running step of a sump without an open task its task.</summary>
    public async Task PlanMissingAsync(Guid sumpId, CancellationToken cancellationToken)
    {
        var steps = await db.CarePlans.Where(p => p.SumpId == sumpId).SelectMany(p => p.Steps).Where(s => !s.IsStopped).ToListAsync(cancellationToken);
        var open = await db.CareTasks.Where(t => t.SumpId == sumpId && t.State == TaskState.Open).Select(t => t.Cause).ToListAsync(cancellationToken);
        foreach (var step in steps.Where(s => !open.Contains(CareSchedule.CauseOf(s.Id), StringComparer.Ordinal)))
        {
            var last = await db.CareTasks.Where(t => t.StepId == step.Id && t.State == TaskState.Done).MaxAsync(t => t.EndedAtUtc, cancellationToken);
            DateOnly? lastDay = last is { } done ? setup.Calendar.ShopDayOf(done) : null;
            Make(sumpId, CareSchedule.First(step.ToFacts(), lastDay, clock.UtcNow, setup.CalendarFor(sumpId)));
        }
    }

    /// <summary>Plans the task after one that ended: of a step that was not stopped, or the next circulation while a machine stands.</summary>
    /// <param name="doneAtUtc">When the work was done, where that is not when it was entered.</param>
    public async Task PlanAfterAsync(CareTask ended, CancellationToken cancellationToken, DateTime? doneAtUtc = null)
    {
        if (ShutdownWork.IsDuring(ended.Cause))
        {
            CirculateOn(ended, setup.Calendar.ShopDayOf(doneAtUtc ?? ended.EndedAtUtc ?? clock.UtcNow));
            return;
        }

        if (ended.StepId is not { } stepId || await db.CareSteps.FirstOrDefaultAsync(s => s.Id == stepId && !s.IsStopped, cancellationToken) is not { } step)
        {
            return;
        }

        Make(ended.SumpId, CareSchedule.After(step.ToFacts(), ended.ToOpen(), doneAtUtc ?? ended.EndedAtUtc ?? clock.UtcNow, setup.CalendarFor(ended.SumpId)));
    }

    /// <summary>
    /// After corrective work was ended by hand: a test for each flag that is left open with nothing to do. What was ended must have been
    /// sent to the database.
    /// </summary>
    public async Task PlanRetestsAsync(Guid sumpId, TaskKind ended, CancellationToken cancellationToken)
    {
        var flags = await db.Flags.AsNoTracking().Where(f => f.SumpId == sumpId && f.EndedAtUtc == null).ToListAsync(cancellationToken);
        var open = await db.CareTasks.AsNoTracking().Where(t => t.SumpId == sumpId && t.State == TaskState.Open).ToListAsync(cancellationToken);
        var now = clock.UtcNow;
        foreach (var proposed in RetestAdvice.After(ended, [.. flags.Select(f => f.ToOpen())], [.. open.Select(t => t.ToOpen())], setup.CalendarFor(sumpId), now))
        {
            // It hangs on the reading that raised its flag: when that is corrected away, it goes too.
            var reading = flags.Find(f => CorrectiveWork.CauseOf(f.Rule, f.Parameter) == proposed.Cause)?.ReadingId;
            db.Add(new CareTask(clock.NewId(), sumpId, proposed.Kind, proposed.Cause, null, proposed.DueAt, now, reading, null));
        }
    }

    private void CirculateOn(CareTask ended, DateOnly doneOn)
    {
        if (setup.Shutdowns.FirstOrDefault(s => s.Id == ShutdownWork.ShutdownOf(ended.Cause)) is { IsWithdrawn: false } shutdown
            && ShutdownWork.NextCirculation(shutdown.ToFacts(), doneOn, ShutdownPlanner.Thresholds, setup.CalendarFor(ended.SumpId), clock.UtcNow) is { } next)
        {
            Make(ended.SumpId, next);
        }
    }

    private void Make(Guid sumpId, ProposedTask proposed) =>
        db.Add(new CareTask(clock.NewId(), sumpId, proposed.Kind, proposed.Cause, proposed.StepId, proposed.DueAt, clock.UtcNow, null, null));
}
