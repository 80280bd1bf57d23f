using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;

namespace ShopFluids.Core.Setup;

/// <summary>
/// Changes what is known of a sump: where it is, its shape and marks, the machines that it serves. Its tag stays: it stands on labels and in
/// addresses. What was read and advised before stays as it was; what it holds now is reckoned by the new shape.
/// </summary>
/// <param name="MachineIds">Machines of the shop that it serves; those left out are served no more and stay machines.</param>
/// <param name="NewMachines">Machines that it serves and that are new to the shop.</param>
/// <param name="SeenVersion">The version that the person saw, so that two people do not overwrite each other.</param>
public sealed record ChangeSump(
    string SumpTag,
    Guid AreaId,
    SumpShape Shape,
    decimal FullMarkMm,
    decimal PumpIntakeMm,
    int WalkOrder,
    Guid? WaterSourceId,
    IReadOnlyList<Guid> MachineIds,
    IReadOnlyList<NewMachine> NewMachines,
    long SeenVersion);

public sealed class ChangeSumpHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<Saved>> HandleAsync(ChangeSump command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.FindSump(command.SumpTag) is not { } known)
        {
            return new SumpNotFound(command.SumpTag);
        }

        if (known.IsRetired)
        {
            return new SumpRetired(known.Tag);
        }

        var errors = Check(command, setup);
        await CheckLevelsAsync(db, errors, known.Id, command.Shape.BrimMm, cancellationToken);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var sump = await db.Sumps.Include(s => s.Machines).SingleAsync(s => s.Id == known.Id, cancellationToken);
        if (sump.Version != command.SeenVersion)
        {
            return new ChangedMeanwhile(sump.Version);
        }

        if (SumpLevelLimits.Next(setup, sump, command.FullMarkMm, command.PumpIntakeMm, clock.NewId(), await NowOrAfterLastReadingAsync(db, sump.Id, cancellationToken)) is { } limits)
        {
            db.Add(limits);
        }

        if (!sump.Shape.HasTheMeasuresOf(command.Shape) || sump.FullMarkMm != command.FullMarkMm)
        {
            await WithdrawRecipesAsync(write, setup, sump.Id, actor, cancellationToken);
        }

        await ChangeMachinesAsync(db, sump, command, cancellationToken);
        sump.Change(command.AreaId, command.Shape, command.FullMarkMm, command.PumpIntakeMm, command.WalkOrder, command.WaterSourceId);

        // Also where only the machines changed: whoever has the form open must see it.
        db.Entry(sump).Property(s => s.Version).IsModified = true;
        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return new Saved(sump.Id);
    }

    // Litres worked out of another shape may be more than fit in: the level is measured again, and a recipe comes with it.
    private async Task WithdrawRecipesAsync(ShopWrite write, ShopSetup setup, Guid sumpId, Actor actor, CancellationToken cancellationToken)
    {
        var tasks = await write.Database.CareTasks.Where(t => t.SumpId == sumpId && t.Kind == TaskKind.Adjust && t.State == TaskState.Open).ToListAsync(cancellationToken);
        foreach (var task in tasks.Where(t => t.Recipe is not null))
        {
            task.End(TaskState.Withdrawn, clock.UtcNow, actor.PersonId);
        }

        await write.FlushAsync(cancellationToken);
        await new CarePlanner(write.Database, setup, clock).PlanRetestsAsync(sumpId, TaskKind.Adjust, cancellationToken);
    }

    private static List<FieldError> Check(ChangeSump command, ShopSetup setup)
    {
        var errors = new List<FieldError>();
        SumpChecks.Place(errors, setup, setup.Areas, command.AreaId, command.WaterSourceId, command.WalkOrder);
        if (command.MachineIds.Count + command.NewMachines.Count == 0)
        {
            errors.Add(new("machines", FieldProblem.Missing));
        }

        if (command.MachineIds.Any(id => setup.Machines.All(m => m.Id != id)))
        {
            errors.Add(new("machines", FieldProblem.UnknownChoice));
        }

        SumpChecks.NewMachines(errors, setup, command.NewMachines);
        SumpShapeChecks.Check(errors, command.Shape, command.FullMarkMm, command.PumpIntakeMm, setup.Site?.MeasurableLitres ?? 0);
        return errors;
    }

    // A level over the brim has no volume: trends and losses of the past could not be shown any more.
    private static async Task CheckLevelsAsync(ShopFluidsDbContext db, List<FieldError> errors, Guid sumpId, decimal brimMm, CancellationToken cancellationToken)
    {
        var highest = await db.Readings.Where(r => r.SumpId == sumpId)
            .SelectMany(r => r.Measurements.Where(m => m.Parameter == ParameterCodes.Level), (_, m) => (double?)m.Value)
            .MaxAsync(cancellationToken);
        if (highest is { } level && (decimal)level > brimMm && errors.All(e => e.Field is not ("brimMm" or "strappingTable")))
        {
            errors.Add(new("brimMm", FieldProblem.UnderALevelRead, brimMm, (decimal)level, Unit: "mm"));
        }
    }

    // What was read stays judged by the limits that held then.
    private async Task<DateTime> NowOrAfterLastReadingAsync(ShopFluidsDbContext db, Guid sumpId, CancellationToken cancellationToken)
    {
        var now = clock.UtcNow;
        var last = await db.Readings.Where(r => r.SumpId == sumpId).MaxAsync(r => (DateTime?)r.TakenAtUtc, cancellationToken);
        return last >= now ? last.Value.AddMilliseconds(1) : now;
    }

    // A machine that stood with the sump goes with it into another area.
    private static async Task ChangeMachinesAsync(ShopFluidsDbContext db, Sump sump, ChangeSump command, CancellationToken cancellationToken)
    {
        var made = command.NewMachines.Select(m => AddSumpHandler.Make(m, command.AreaId)).ToList();
        db.AddRange(made);
        sump.Serve([.. command.MachineIds.Distinct(), .. made.Select(m => m.Id)]);
        if (sump.AreaId != command.AreaId)
        {
            foreach (var machine in await db.Machines.Where(m => command.MachineIds.Contains(m.Id) && m.AreaId == sump.AreaId).ToListAsync(cancellationToken))
            {
                machine.MoveTo(command.AreaId);
            }
        }
    }
}
