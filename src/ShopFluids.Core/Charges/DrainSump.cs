using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Charges;

/// <summary>
/// Ends a charge: its fluid is drained, its flags end with it, and corrective work that only they asked for goes. Draining that the plan
/// or a flag asked for is done by it.
/// </summary>
public sealed record DrainSump(Guid RemovalId, string SumpTag, DateTime DrainedAtUtc, decimal DrainedLitres);

public sealed record DrainedSump(Guid ChargeId);

public sealed class DrainSumpHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<DrainedSump>> HandleAsync(DrainSump command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (await db.Removals.FirstOrDefaultAsync(r => r.Id == command.RemovalId, cancellationToken) is { } known)
        {
            return await SameContent.IsDrainAsync(db, known, setup.FindSump(command.SumpTag), command, cancellationToken) ? new DrainedSump(known.ChargeId) : new OtherContentForId(command.RemovalId);
        }

        if (setup.FindSump(command.SumpTag) is not { } sump)
        {
            return new SumpNotFound(command.SumpTag);
        }

        var charge = await db.Charges.FirstOrDefaultAsync(c => c.SumpId == sump.Id && c.DrainedAtUtc == null, cancellationToken);
        if (charge is null)
        {
            return new NoOpenCharge(sump.Tag);
        }

        var now = clock.UtcNow;
        var errors = new List<FieldError>();
        AmountChecks.Check(errors, "drainedLitres", command.DrainedLitres);
        var latest = await LatestEntryAsync(db, charge, cancellationToken);
        if (command.DrainedAtUtc > now + ReadingChecks.AllowedClockSkew)
        {
            errors.Add(new("drainedAt", FieldProblem.InTheFuture));
        }
        else if (command.DrainedAtUtc < latest)
        {
            errors.Add(new("drainedAt", latest == charge.FilledAtUtc ? FieldProblem.BeforeTheFill : FieldProblem.BeforeTheLastEntry, EarliestUtc: latest));
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        charge.Drain(command.DrainedAtUtc);
        db.Add(new Removal(command.RemovalId, charge.Id, command.DrainedAtUtc, command.DrainedLitres, RemovalReasons.Drain, actor.PersonId ?? Guid.Empty));
        foreach (var flag in await db.Flags.Where(f => f.SumpId == sump.Id && f.EndedAtUtc == null).ToListAsync(cancellationToken))
        {
            flag.End(FlagEnd.ChargeEnded, now);
        }

        await EndWorkAsync(write, sump, setup, command.DrainedAtUtc, actor, now, cancellationToken);
        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.ChargeDrained, actor, now, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return new DrainedSump(charge.Id);
    }

    private static async Task<DateTime> LatestEntryAsync(ShopFluidsDbContext db, Charge charge, CancellationToken cancellationToken)
    {
        DateTime?[] entries =
        [
            charge.FilledAtUtc,
            await db.Readings.Where(r => r.ChargeId == charge.Id).MaxAsync(r => (DateTime?)r.TakenAtUtc, cancellationToken),
            await db.Additions.Where(a => a.ChargeId == charge.Id).MaxAsync(a => (DateTime?)a.AddedAtUtc, cancellationToken),
            await db.Removals.Where(r => r.ChargeId == charge.Id).MaxAsync(r => (DateTime?)r.RemovedAtUtc, cancellationToken),
        ];
        return entries.OfType<DateTime>().Max();
    }

    private async Task EndWorkAsync(ShopWrite write, Sump sump, ShopSetup setup, DateTime drainedAtUtc, Actor actor, DateTime now, CancellationToken cancellationToken)
    {
        var db = write.Database;
        var steps = setup.StepsOf(sump.Id).ToDictionary(s => s.Id, s => setup.FactsOf(s, sump.Id));
        var drained = new List<CareTask>();
        foreach (var task in await db.CareTasks.Where(t => t.SumpId == sump.Id && t.State == TaskState.Open).ToListAsync(cancellationToken))
        {
            var step = task.StepId is { } stepId ? steps.GetValueOrDefault(stepId) : null;
            if (step is not null && task.IntervalDays is { } days)
            {
                step = step with { IntervalDays = ConditionInterval.WholeDays(days) };
            }

            if (task.Kind == TaskKind.DrainClean && (step is null || !step.Recurs || CareSchedule.CountsFor(step, task.ToOpen(), drainedAtUtc, setup.CalendarFor(sump.Id))))
            {
                task.End(TaskState.Done, now, actor.PersonId);
                drained.Add(task);
            }
            else if (!CareSchedule.IsPlanned(task.Cause) || step is { Recurs: false })
            {
                task.End(TaskState.Withdrawn, now, null);
            }
        }

        await write.FlushAsync(cancellationToken);
        var planner = new CarePlanner(db, setup, clock);
        foreach (var task in drained)
        {
            await planner.PlanAfterAsync(task, cancellationToken, drainedAtUtc);
        }
    }
}
