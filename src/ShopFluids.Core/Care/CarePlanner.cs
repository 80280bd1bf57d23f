using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Core.Care;

/// <summary>Makes the tasks that the steps of a care plan call for; at most one is open for each step.</summary>
internal sealed class CarePlanner(ShopFluidsDbContext db, ShopSetup setup, ShopClock clock)
{
    /// <summary>Gives every running step of a sump without an open task its task; a step after a fill once for each charge.</summary>
    /// <param name="isFilled">The charge was just filled: what it asks for is planned even where its day has passed.</param>
    public async Task PlanMissingAsync(Guid sumpId, CancellationToken cancellationToken, bool isFilled = false)
    {
        var steps = await db.CarePlans.Where(p => p.SumpId == sumpId).SelectMany(p => p.Steps).Where(s => !s.IsStopped).ToListAsync(cancellationToken);
        var open = await db.CareTasks.Where(t => t.SumpId == sumpId && t.State == TaskState.Open).Select(t => t.Cause).ToListAsync(cancellationToken);
        foreach (var step in steps.Where(s => !open.Contains(CareSchedule.CauseOf(s.Id), StringComparer.Ordinal)))
        {
            if (step.Basis == IntervalBasis.AfterFill)
            {
                await PlanAfterFillAsync(step, sumpId, isFilled, cancellationToken);
            }

            var facts = setup.FactsOf(step, sumpId);
            if (!facts.Recurs)
            {
                continue;
            }

            var last = await db.CareTasks.AsNoTracking().Where(t => t.StepId == step.Id && t.State == TaskState.Done).OrderByDescending(t => t.EndedAtUtc).FirstOrDefaultAsync(cancellationToken);
            DateOnly? lastDay = last?.EndedAtUtc is { } done ? setup.Calendar.ShopDayOf(done) : null;
            var interval = step.Condition?.NextDays(last?.IntervalDays ?? step.IntervalDays, null, null);
            Make(sumpId, CareSchedule.First(After(facts, interval), lastDay, clock.UtcNow, setup.CalendarFor(sumpId)), interval);
        }
    }

    /// <summary>Plans the task after one that ended: of a step that was not stopped, or the next circulation while a machine stands.</summary>
    /// <param name="doneAtUtc">When the work was done, where that is not when it was entered.</param>
    /// <param name="found">What was found, as number, where it was said.</param>
    public async Task PlanAfterAsync(CareTask ended, CancellationToken cancellationToken, DateTime? doneAtUtc = null, decimal? found = null)
    {
        var doneAt = doneAtUtc ?? ended.EndedAtUtc ?? clock.UtcNow;
        if (ShutdownWork.IsDuring(ended.Cause))
        {
            CirculateOn(ended, setup.Calendar.ShopDayOf(doneAt));
            return;
        }

        if (ended.StepId is not { } stepId || await db.CareSteps.FirstOrDefaultAsync(s => s.Id == stepId && !s.IsStopped, cancellationToken) is not { } step)
        {
            return;
        }

        var facts = setup.FactsOf(step, ended.SumpId);
        if (!facts.Recurs)
        {
            return;
        }

        var interval = step.Condition?.NextDays(ended.IntervalDays ?? step.IntervalDays, await DaysSinceLastAsync(ended, doneAt, cancellationToken), ended.State == TaskState.Done ? found : null);
        Make(ended.SumpId, CareSchedule.After(After(facts, interval), ended.ToOpen(), doneAt, setup.CalendarFor(ended.SumpId)), interval);
    }

    /// <summary>Gives the plan's open work that is not late the day that its step asks for, after closed days have become open ones.</summary>
    public async Task RestoreAsync(Guid sumpId, ShopCalendar calendar, CancellationToken cancellationToken)
    {
        var now = clock.UtcNow;
        var steps = setup.StepsOf(sumpId).ToDictionary(s => s.Id);
        foreach (var task in await db.CareTasks.Where(t => t.SumpId == sumpId && t.State == TaskState.Open && t.StepId != null && t.DueAtUtc > now).ToListAsync(cancellationToken))
        {
            if (task.StepId is not { } id || !steps.TryGetValue(id, out var step) || setup.FactsOf(step, sumpId) is not { Recurs: true } recurring)
            {
                continue;
            }

            var last = await db.CareTasks.AsNoTracking()
                .Where(t => t.StepId == id && (t.State == TaskState.Done || t.State == TaskState.Skipped))
                .OrderByDescending(t => t.EndedAtUtc).FirstOrDefaultAsync(cancellationToken);
            // A day that somebody chose stays.
            var since = last?.EndedAtUtc ?? DateTime.UnixEpoch;
            if (await db.CareTasks.AnyAsync(t => t.StepId == id && t.State == TaskState.Withdrawn && t.EndReason != null && t.EndedAtUtc > since, cancellationToken))
            {
                continue;
            }

            var facts = After(recurring, task.IntervalDays);
            var asked = last?.EndedAtUtc is { } ended ? CareSchedule.After(facts, last.ToOpen(), ended, calendar) : CareSchedule.First(facts, null, now, calendar);
            if (asked.DueAt > now)
            {
                task.Move(asked.DueAt);
            }
        }
    }

    // What was found has gathered since the same work was last done, whatever asked for it then.
    private async Task<int?> DaysSinceLastAsync(CareTask ended, DateTime doneAtUtc, CancellationToken cancellationToken)
    {
        var last = await db.CareTasks.AsNoTracking()
            .Where(t => t.SumpId == ended.SumpId && t.Kind == ended.Kind && t.State == TaskState.Done && t.EndedAtUtc < doneAtUtc)
            .MaxAsync(t => t.EndedAtUtc, cancellationToken);
        return last is { } before ? setup.Calendar.ShopDayOf(doneAtUtc).DayNumber - setup.Calendar.ShopDayOf(before).DayNumber : null;
    }

    private async Task PlanAfterFillAsync(CareStep step, Guid sumpId, bool isFilled, CancellationToken cancellationToken)
    {
        if (await db.Charges.AsNoTracking().FirstOrDefaultAsync(c => c.SumpId == sumpId && c.DrainedAtUtc == null, cancellationToken) is not { } charge
            || await db.CareTasks.AnyAsync(t => t.StepId == step.Id && t.CreatedAtUtc >= charge.FilledAtUtc, cancellationToken))
        {
            return;
        }

        var (facts, calendar) = (setup.FactsOf(step, sumpId), setup.CalendarFor(sumpId));
        var filledOn = calendar.ShopDayOf(charge.FilledAtUtc);
        if (isFilled || facts.Later(filledOn) >= calendar.ShopDayOf(clock.UtcNow))
        {
            Make(sumpId, CareSchedule.AfterEvent(facts, filledOn, clock.UtcNow, calendar));
        }
    }

    private static CareStepFacts After(CareStepFacts step, decimal? intervalDays) => intervalDays is { } days ? step with { IntervalDays = ConditionInterval.WholeDays(days) } : step;

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
            && setup.CalendarFor(ended.SumpId) is var calendar
            && ShutdownWork.NextCirculation(shutdown.ToFacts().WithClosedDaysAround(calendar), doneOn, ShutdownPlanner.Thresholds, calendar, clock.UtcNow) is { } next)
        {
            Make(ended.SumpId, next);
        }
    }

    private void Make(Guid sumpId, ProposedTask proposed, decimal? intervalDays = null)
    {
        var task = new CareTask(clock.NewId(), sumpId, proposed.Kind, proposed.Cause, proposed.StepId, proposed.DueAt, clock.UtcNow, null, null);
        if (intervalDays is { } days)
        {
            task.PlannedAfter(days);
        }

        db.Add(task);
    }
}
