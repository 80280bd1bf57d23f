using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Setup;

/// <summary>Changes what is known of a machine. Its tag stays: it stands on labels and in addresses.</summary>
/// <param name="SeenVersion">The version that the person saw, so that two people do not overwrite each other.</param>
public sealed record ChangeMachine(Guid Id, string Name, string Process, decimal WeeklyHours, Delivery Delivery, long SeenVersion);

/// <summary>There is no such machine.</summary>
public sealed record MachineGone : Error;

public sealed class ChangeMachineHandler(ShopDatabase database, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(ChangeMachine command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        var errors = new List<FieldError>();
        MachineChecks.Check(errors, command.Name, command.Process, command.WeeklyHours);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await database.WriteAsync(cancellationToken);
        if (await write.Database.Machines.FirstOrDefaultAsync(m => m.Id == command.Id, cancellationToken) is not { } machine)
        {
            return new MachineGone();
        }

        if (machine.Version != command.SeenVersion)
        {
            return new ChangedMeanwhile(machine.Version);
        }

        machine.Change(command.Name.Trim(), command.Process.Trim(), command.WeeklyHours, command.Delivery);
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, machine.Tag), cancellationToken);
        return new Saved(machine.Id);
    }
}

/// <summary>What holds for a machine whether it is made or changed.</summary>
internal static class MachineChecks
{
    public static void Check(List<FieldError> errors, string name, string process, decimal weeklyHours)
    {
        TextChecks.Check(errors, "machineName", name, 120);
        TextChecks.Check(errors, "process", process, 120, isRequired: false);
        WeeklyHours(errors, weeklyHours);
    }

    public static void WeeklyHours(List<FieldError> errors, decimal weeklyHours) => SetupFields.Range(errors, "weeklyHours", weeklyHours, 0, 168, "h");
}
