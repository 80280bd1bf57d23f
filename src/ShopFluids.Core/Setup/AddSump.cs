using ShopFluids.Core.Database;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Record;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Core.Setup;

/// <summary>Adds a sump with the machines that it serves; more than one machine makes it a central system.</summary>
/// <param name="Machines">New machines.</param>
public sealed record AddSump(
    Guid Id,
    Guid AreaId,
    string Tag,
    SumpShape Shape,
    decimal FullMarkMm,
    decimal PumpIntakeMm,
    int WalkOrder,
    Guid? WaterSourceId,
    IReadOnlyList<NewMachine> Machines);

public sealed record NewMachine(Guid Id, string Tag, string Name, string Process, decimal WeeklyHours, Delivery Delivery);

public sealed class AddSumpHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(AddSump command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.FindSump(command.Id) is not null)
        {
            return new Saved(command.Id);
        }

        var errors = Check(command, setup);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var made = Make(command, clock.NewId());
        db.AddRange(made.Machines);
        db.Add(made.Sump);
        db.Add(new Standing(made.Sump.Id));
        db.Add(made.Limits);
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, made.Sump.Tag), cancellationToken);
        return new Saved(command.Id);
    }

    /// <summary>The rows of a sump; the command has been checked.</summary>
    internal static SumpRows Make(AddSump command, Guid limitsId)
    {
        var sump = new Sump(command.Id, command.AreaId, command.Tag.Trim(), command.Shape, command.FullMarkMm, command.PumpIntakeMm, command.WalkOrder, command.WaterSourceId);
        var machines = command.Machines.Select(m => new Machine(m.Id, command.AreaId, m.Tag.Trim(), m.Name.Trim(), m.Process.Trim(), m.WeeklyHours, m.Delivery)).ToList();
        machines.ForEach(m => sump.Serve(m.Id));

        // Level limits belong to the sump: they follow its own marks.
        return new(sump, machines, new LimitSet(limitsId, null, sump.Id, 1, DateTime.UnixEpoch, [CommonPractice.Level(command.FullMarkMm, command.PumpIntakeMm).Limits]));
    }

    private static List<FieldError> Check(AddSump command, ShopSetup setup)
    {
        var errors = new List<FieldError>();
        SetupFields.Tag(errors, "sumpTag", command.Tag);
        if (setup.FindSump(command.Tag) is not null)
        {
            errors.Add(new("sumpTag", FieldProblem.NotUnique, Detail: command.Tag));
        }

        if (setup.Areas.All(a => a.Id != command.AreaId))
        {
            errors.Add(new("area", FieldProblem.UnknownChoice));
        }

        if (command.WaterSourceId is { } water && setup.Waters.All(w => w.Id != water))
        {
            errors.Add(new("waterSource", FieldProblem.UnknownChoice));
        }

        if (command.Machines.Count == 0)
        {
            errors.Add(new("machineTag", FieldProblem.Missing));
        }

        foreach (var machine in command.Machines)
        {
            SetupFields.Tag(errors, "machineTag", machine.Tag);
            MachineChecks.Check(errors, machine.Name, machine.Process, machine.WeeklyHours);
            if (setup.Machines.Any(m => m.TagKey == Tags.Key(machine.Tag)) || command.Machines.Count(m => Tags.Key(m.Tag) == Tags.Key(machine.Tag)) > 1)
            {
                errors.Add(new("machineTag", FieldProblem.NotUnique, Detail: machine.Tag));
            }
        }

        SumpShapeChecks.Check(errors, command.Shape, command.FullMarkMm, command.PumpIntakeMm, setup.Site?.MeasurableLitres ?? 0);
        return errors;
    }
}

/// <summary>A new sump with its machines and the limits of its level.</summary>
internal sealed record SumpRows(Sump Sump, IReadOnlyList<Machine> Machines, LimitSet Limits);
