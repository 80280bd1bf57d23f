using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Slides;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;

namespace ShopFluids.Core.Care;

/// <summary>
/// Ends a task: done, or skipped with a reason. A recurring step plans its next from it; a flag that is left without work asks for a test.
/// </summary>
/// <param name="State">Done or Skipped.</param>
/// <param name="Found">What was found, where it was done; never asked for twice and never needed.</param>
public sealed record EndTask(Guid TaskId, TaskState State, string? Reason = null, TypedFind? Found = null);

public sealed record EndedTask(Guid TaskId, TaskState State, DateTime EndedAtUtc);

public sealed record TaskNotFound(Guid TaskId) : Error;

/// <summary>It ended before, in another way than was asked for now.</summary>
public sealed record TaskEndedAlready(Guid TaskId, TaskState State, DateTime EndedAtUtc) : Error;

/// <summary>Its flag stands beyond an action limit: only a supervisor may skip the draining.</summary>
public sealed record OnlyASupervisorSkips(Guid TaskId) : Error;

/// <summary>A test is done by a reading, an adjustment by noting what was added, a slide by what is read of it, a dose by noting it, a draining by draining: none is ticked off.</summary>
public sealed record NotTickedOff(Guid TaskId, TaskKind Kind) : Error;

public sealed class EndTaskHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public const int MaximumReasonLength = 500;

    /// <summary>Whether saying that it is done is enough; of the others the record needs what was measured or poured.</summary>
    public static bool IsTickedOff(TaskKind kind) => kind is not (TaskKind.Test or TaskKind.Adjust or TaskKind.ReadSlide or TaskKind.Dose or TaskKind.DrainClean);

    public async Task<Result<EndedTask>> HandleAsync(EndTask command, Actor actor, bool isSupervisor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        if (command.State is not (TaskState.Done or TaskState.Skipped))
        {
            throw new ArgumentException("A person ends a task as done or skipped.", nameof(command));
        }

        if (command.State != TaskState.Done && command.Found is { IsEmpty: false })
        {
            throw new ArgumentException("Only what was done has found something.", nameof(command));
        }

        var reason = command.Reason?.Trim() ?? "";
        var errors = new List<FieldError>();
        TextChecks.Check(errors, "reason", reason, MaximumReasonLength, isRequired: command.State == TaskState.Skipped);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (await db.CareTasks.FirstOrDefaultAsync(t => t.Id == command.TaskId, cancellationToken) is not { } task)
        {
            return new TaskNotFound(command.TaskId);
        }

        var now = clock.UtcNow;
        if (task.State != TaskState.Open)
        {
            // A second press of the same button is the same act; what it says anew is refused rather than lost.
            return task.State == command.State && FindQuestion.Kept(command.Found) is var again && (again is null || again == task.Found) ? new EndedTask(task.Id, task.State, task.EndedAtUtc ?? now) : new TaskEndedAlready(task.Id, task.State, task.EndedAtUtc ?? now);
        }

        if (command.State == TaskState.Done && !IsTickedOff(task.Kind))
        {
            return new NotTickedOff(task.Id, task.Kind);
        }

        if (command.Found is { } find)
        {
            FindQuestion.Check(errors, task.Kind, find, setup.FindSump(task.SumpId));
            if (errors.Count > 0)
            {
                return new FieldErrors(errors);
            }
        }

        var flags = await db.Flags.AsNoTracking().Where(f => f.SumpId == task.SumpId && f.EndedAtUtc == null).ToListAsync(cancellationToken);
        if (command.State == TaskState.Skipped && !isSupervisor && CorrectiveWork.OnlyASupervisorSkips(task.Kind, [.. flags.Select(f => f.ToOpen())]))
        {
            return new OnlyASupervisorSkips(task.Id);
        }

        var same = await SameWork.OpenAsync(db, setup, task, now, cancellationToken);
        foreach (var ended in same)
        {
            ended.End(command.State, now, actor.PersonId, reason: reason.Length == 0 ? null : reason);
        }

        // Said once, at the task that was ticked: what is ended with it is the same work.
        if (FindQuestion.Kept(command.Found) is { } found)
        {
            task.Note(found);
        }

        await write.FlushAsync(cancellationToken);
        var planner = new CarePlanner(db, setup, clock);
        foreach (var ended in same)
        {
            await planner.PlanAfterAsync(ended, cancellationToken, found: task.Found?.Value);
        }

        await planner.PlanRetestsAsync(task.SumpId, task.Kind, cancellationToken);
        if (setup.FindSump(task.SumpId) is { } sump)
        {
            if (task.Kind == TaskKind.ReadSlide)
            {
                await SlideWork.DiscardOfTaskAsync(write, task, now, actor.PersonId, cancellationToken);
            }

            await LateTestFlag.EndWhenNoneIsLateAsync(write, sump.Id, now, actor.PersonId, cancellationToken);
            await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
            await write.CommitAsync(new Act(ActCodes.TaskEnded, actor, now, sump.Tag), cancellationToken);
        }

        news.Publish(task.SumpId);
        return new EndedTask(task.Id, command.State, now);
    }
}
