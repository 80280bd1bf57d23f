using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Care;

/// <summary>Gives a task to a person, or back to nobody.</summary>
public sealed record AssignTask(Guid TaskId, Guid? PersonId);

public sealed record AssignedTask(Guid TaskId, Guid? PersonId);

public sealed class AssignTaskHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<AssignedTask>> HandleAsync(AssignTask command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (await db.CareTasks.FirstOrDefaultAsync(t => t.Id == command.TaskId, cancellationToken) is not { } task)
        {
            return new TaskNotFound(command.TaskId);
        }

        if (task.State != TaskState.Open)
        {
            return new TaskEndedAlready(task.Id, task.State, task.EndedAtUtc ?? clock.UtcNow);
        }

        if (command.PersonId is { } personId && !await db.Users.AnyAsync(p => p.Id == personId && p.LeftAtUtc == null, cancellationToken))
        {
            return new FieldErrors([new("person", FieldProblem.UnknownChoice)]);
        }

        task.Assign(command.PersonId);
        await write.CommitAsync(new Act(ActCodes.TaskAssigned, actor, clock.UtcNow, setup.FindSump(task.SumpId)?.Tag ?? ""), cancellationToken);
        news.Publish(task.SumpId);
        return new AssignedTask(task.Id, task.AssignedToId);
    }
}
