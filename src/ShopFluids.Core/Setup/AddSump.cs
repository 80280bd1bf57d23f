using ShopFluids.Core.Database;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Record;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

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
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.FindSump(command.Id) is not null)
        {
            return new Saved(command.Id);
        }

        var errors = Check(command, setup, setup.Areas);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        Store(write.Database, command, clock.NewId());
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, command.Tag.Trim()), cancellationToken);
        return new Saved(command.Id);
    }

    /// <summary>Puts the rows of a checked command before the database.</summary>
    internal static void Store(ShopFluidsDbContext db, AddSump command, Guid limitsId)
    {
        var made = Make(command, limitsId);
        db.AddRange(made.Machines);
        db.Add(made.Sump);
        db.Add(new Standing(made.Sump.Id));
        db.Add(made.Limits);
    }

    /// <summary>The rows of a sump; the command has been checked.</summary>
    internal static SumpRows Make(AddSump command, Guid limitsId)
    {
        var sump = new Sump(command.Id, command.AreaId, command.Tag.Trim(), command.Shape, command.FullMarkMm, command.PumpIntakeMm, command.WalkOrder, command.WaterSourceId);
        var machines = command.Machines.Select(m => Make(m, command.AreaId)).ToList();
        sump.Serve([.. machines.Select(m => m.Id)]);
        return new(sump, machines, SumpLevelLimits.First(limitsId, sump.Id, command.FullMarkMm, command.PumpIntakeMm));
    }

    internal static Machine Make(NewMachine machine, Guid areaId) =>
        new(machine.Id, areaId, machine.Tag.Trim(), machine.Name.Trim(), machine.Process.Trim(), machine.WeeklyHours, machine.Delivery);

    /// <param name="areas">Those of the shop, and those that are made with it.</param>
    internal static List<FieldError> Check(AddSump command, ShopSetup setup, IEnumerable<Area> areas)
    {
        var errors = new List<FieldError>();
        SumpChecks.NewTag(errors, setup, command.Tag);
        SumpChecks.Place(errors, setup, areas, command.AreaId, command.WaterSourceId, command.WalkOrder);
        if (command.Machines.Count == 0)
        {
            errors.Add(new("machineTag", FieldProblem.Missing));
        }

        SumpChecks.NewMachines(errors, setup, command.Machines);
        SumpShapeChecks.Check(errors, command.Shape, command.FullMarkMm, command.PumpIntakeMm, setup.Site?.MeasurableLitres ?? 0);
        return errors;
    }
}

/// <summary>A new sump with its machines and the limits of its level.</summary>
internal sealed record SumpRows(Sump Sump, IReadOnlyList<Machine> Machines, LimitSet Limits);
