using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Care;

/// <summary>
/// Gives open work another day, with a reason. It is withdrawn for that reason and asked for anew, so that the history keeps both days; who it
/// was given to and what led to it stay.
/// </summary>
/// <param name="Day">The shop day at whose end it becomes late.</param>
public sealed record RedateTask(Guid TaskId, DateOnly Day, string Reason);

/// <param name="TaskId">Of the task that takes its place.</param>
public sealed record RedatedTask(Guid TaskId, DateTime DueAtUtc);

/// <summary>A dip slide can be read only while it is neither too young nor too old: another day would tell nothing.</summary>
public sealed record SlideKeepsItsDay(Guid TaskId) : Error;

public sealed class RedateTaskHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    /// <summary>Common practice, no source: what waits for longer is skipped.</summary>
    public const int MostDaysAhead = 366;

    public async Task<Result<RedatedTask>> HandleAsync(RedateTask command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        var (now, reason) = (clock.UtcNow, command.Reason.Trim());
        var errors = Check(command.Day, reason, setup.Calendar.ShopDayOf(now));
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        if (await db.CareTasks.FirstOrDefaultAsync(t => t.Id == command.TaskId, cancellationToken) is not { } task || setup.FindSump(task.SumpId) is not { } sump)
        {
            return new TaskNotFound(command.TaskId);
        }

        if (task.State != TaskState.Open)
        {
            return new TaskEndedAlready(task.Id, task.State, task.EndedAtUtc ?? now);
        }

        if (task.Kind == TaskKind.ReadSlide)
        {
            return new SlideKeepsItsDay(task.Id);
        }

        var same = await SameWork.OpenAsync(db, setup, task, now, cancellationToken);
        same.ForEach(t => t.End(TaskState.Withdrawn, now, actor.PersonId, reason: reason));

        // At most one is open for a sump, kind and cause: the old ones go before the new ones come.
        await write.FlushAsync(cancellationToken);
        var made = same.ConvertAll(t => t.Again(clock.NewId(), DueAt(setup, t, command.Day)));
        db.AddRange(made);
        await LateTestFlag.EndWhenNoneIsLateAsync(write, sump.Id, now, actor.PersonId, cancellationToken);
        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.TaskRedated, actor, now, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return new RedatedTask(made[0].Id, made[0].DueAtUtc);
    }

    private static List<FieldError> Check(DateOnly day, string reason, DateOnly today)
    {
        var errors = new List<FieldError>();
        if (day < today || day > today.AddDays(MostDaysAhead))
        {
            errors.Add(new("dueDay", FieldProblem.DayOutOfRange, FirstDay: today, LastDay: today.AddDays(MostDaysAhead)));
        }

        TextChecks.Check(errors, "reason", reason, EndTaskHandler.MaximumReasonLength);
        return errors;
    }

    // Work of a shift stays work of that shift.
    private static DateTime DueAt(ShopSetup setup, CareTask task, DateOnly day)
    {
        var step = setup.StepsOf(task.SumpId).FirstOrDefault(s => s.Id == task.StepId);
        return CareSchedule.DueAt(day, setup.CalendarFor(task.SumpId), step is null ? 0 : setup.FactsOf(step, task.SumpId).Shift);
    }
}
