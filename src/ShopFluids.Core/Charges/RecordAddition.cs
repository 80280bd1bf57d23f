using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;

namespace ShopFluids.Core.Charges;

/// <summary>What was really added to a sump, and taken out before.</summary>
/// <param name="Id">Made by the sender; sending it twice adds once.</param>
/// <param name="RemovedLitres">Fluid removed first, as some recipes ask.</param>
/// <param name="ReadingId">The reading whose recipe was followed.</param>
/// <param name="OverrideReason">A supervisor's reason for an expired or quarantined lot.</param>
/// <param name="TaskId">The adjustment that it answers, where somebody ticks one off: one that ended meanwhile has been answered already.</param>
/// <param name="AsRecipe">The reading's recipe was poured as it stands: refused when something newer is known, or when it has been poured already.</param>
public sealed record RecordAddition(
    Guid Id,
    string SumpTag,
    DateTime AddedAtUtc,
    decimal WaterLitres,
    decimal ConcentrateLitres,
    decimal RemovedLitres,
    Guid? LotId,
    Guid? ReadingId,
    string? OverrideReason = null,
    Guid? TaskId = null,
    bool AsRecipe = false)
{
    /// <summary>It was typed by a person who can be asked about what is unusual, and has not been yet; a program is never asked.</summary>
    public bool MayBeDoubted { get; init; }
}

/// <summary>The sump was read again, corrected or filled anew since the recipe was worked out.</summary>
public sealed record RecipeOutOfDate() : Error;

/// <summary>Something was added after this reading: its recipe has been followed.</summary>
public sealed record RecipeFollowedAlready() : Error;

public sealed record RecordedAddition(Guid Id, double? VolumeLitres, bool IsNew);

public sealed class RecordAdditionHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    /// <summary>The most that may be added or removed at once.</summary>
    public const decimal MaximumLitres = AmountChecks.MaximumLitres;

    public async Task<Result<RecordedAddition>> HandleAsync(RecordAddition command, Actor actor, bool isSupervisor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.FindSump(command.SumpTag) is not { } sump)
        {
            return new SumpNotFound(command.SumpTag);
        }

        // Before anything else: what was stored once stays stored, whatever has happened to the sump since.
        var standing = await db.Standings.SingleAsync(s => s.SumpId == sump.Id, cancellationToken);
        if (await db.Additions.FirstOrDefaultAsync(a => a.Id == command.Id, cancellationToken) is { } known)
        {
            return await SameContent.IsAdditionAsync(db, known, sump, command, cancellationToken) ? new RecordedAddition(command.Id, standing.VolumeLitres, IsNew: false) : new OtherContentForId(command.Id);
        }

        if (setup.OpenCharge(sump.Id) is not { } charge)
        {
            return new NoOpenCharge(sump.Tag);
        }

        // The writers' lock is held: of two tablets that press at once, the second sees the first one's addition.
        if (command.AsRecipe && await RecipeFaultAsync(db, command.ReadingId, charge, cancellationToken) is { } recipeFault)
        {
            return recipeFault;
        }

        var now = clock.UtcNow;
        if (command.TaskId is { } taskId)
        {
            var answered = await db.CareTasks.AsNoTracking().FirstOrDefaultAsync(t => t.Id == taskId && t.SumpId == sump.Id && t.Kind == TaskKind.Adjust, cancellationToken);
            if (answered is null || answered.State != TaskState.Open)
            {
                return answered is null ? new TaskNotFound(taskId) : new TaskEndedAlready(taskId, answered.State, answered.EndedAtUtc ?? now);
            }
        }

        var held = await PastVolume.KnownAtAsync(db, sump, charge.Id, standing, command.AddedAtUtc, cancellationToken);
        var errors = Check(command, sump, charge, held, now);
        var overrideReason = isSupervisor ? command.OverrideReason : null;
        var lot = await LotUse.CheckAsync(db, errors, command.LotId, charge.FluidId, command.ConcentrateLitres, setup.Calendar.ShopDayOf(command.AddedAtUtc), overrideReason, cancellationToken);
        if (command.ReadingId is { } readingId && !await db.Readings.AnyAsync(r => r.Id == readingId && r.ChargeId == charge.Id, cancellationToken))
        {
            errors.Add(new("reading", FieldProblem.UnknownChoice));
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var doubts = await DoubtsAsync(db, setup, command, sump, charge, standing, held, cancellationToken);
        if (command.MayBeDoubted && doubts.Count > 0)
        {
            return new AdditionDoubted(doubts);
        }

        lot?.Lot.Draw(command.ConcentrateLitres);
        var personId = actor.PersonId ?? Guid.Empty;
        if (command.RemovedLitres > 0)
        {
            db.Add(new Removal(command.Id, charge.Id, command.AddedAtUtc, command.RemovedLitres, RemovalReasons.Swap, personId));
        }

        var unusual = doubts.Aggregate(UnusualAddition.None, (all, doubt) => all | doubt.Kind);
        db.Add(new Addition(command.Id, charge.Id, command.AddedAtUtc, command.WaterLitres, command.ConcentrateLitres, lot?.Lot.Id, command.ReadingId, personId, lot?.OverrideReason, unusual));

        // The adjustment that the rules asked for is what has just been done; whether it was enough, a reading must show.
        foreach (var task in await db.CareTasks.Where(t => t.SumpId == sump.Id && t.Kind == TaskKind.Adjust && t.State == TaskState.Open).ToListAsync(cancellationToken))
        {
            task.End(TaskState.Done, now, actor.PersonId);
        }

        await write.FlushAsync(cancellationToken);
        await new CarePlanner(db, setup, clock).PlanRetestsAsync(sump.Id, TaskKind.Adjust, cancellationToken);
        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.AdditionStored, actor, now, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return new RecordedAddition(command.Id, standing.VolumeLitres, IsNew: true);
    }

    private static async Task<IReadOnlyList<AdditionDoubt>> DoubtsAsync(
        ShopFluidsDbContext db, ShopSetup setup, RecordAddition command, Sump sump, Charge charge, Standing standing, double? held, CancellationToken cancellationToken)
    {
        var reading = await db.Readings.AsNoTracking().FirstOrDefaultAsync(r => r.Id == command.ReadingId, cancellationToken);
        var isOpen = reading is not null && !(standing.Facts?.LastMovedAt > reading.TakenAtUtc);
        return AdditionDoubts.Of(
            new((double)command.RemovedLitres, (double)command.WaterLitres, (double)command.ConcentrateLitres),
            isOpen ? reading?.Outcome?.Recipe : null,
            held,
            sump.Geometry.VolumeLitresAt((double)sump.FullMarkMm),
            BeforeOf(setup, command, sump, charge, standing));
    }

    // As it was read last: what was moved since has made another mixture of it.
    private static MixtureBefore? BeforeOf(ShopSetup setup, RecordAddition command, Sump sump, Charge charge, Standing standing)
    {
        var read = standing.Facts?.Latest.GetValueOrDefault(ParameterCodes.Concentration);
        var most = setup.LimitsAt(sump.Id, charge.FluidId, command.AddedAtUtc).Limits.FirstOrDefault(l => l.Parameter == ParameterCodes.Concentration)?.ActionHigh;
        return read is null || most is null || read.TakenAt > command.AddedAtUtc || standing.Facts?.LastMovedAt > read.TakenAt ? null : new((double)read.Value, (double)most);
    }

    private static async Task<Error?> RecipeFaultAsync(ShopFluidsDbContext db, Guid? readingId, Charge charge, CancellationToken cancellationToken)
    {
        var reading = await db.Readings.AsNoTracking().FirstOrDefaultAsync(r => r.Id == readingId, cancellationToken);
        return reading is null || reading.ChargeId != charge.Id || !await SavedPageQuery.IsCurrentAsync(db, reading, charge, cancellationToken) ? new RecipeOutOfDate()
            : await db.Additions.AnyAsync(a => a.ReadingId == reading.Id, cancellationToken) ? new RecipeFollowedAlready()
            : null;
    }

    private static List<FieldError> Check(RecordAddition command, Sump sump, Charge charge, double? volumeThen, DateTime now)
    {
        var errors = new List<FieldError>();
        AmountChecks.Check(errors, "waterLitres", command.WaterLitres);
        AmountChecks.Check(errors, "concentrateLitres", command.ConcentrateLitres);
        AmountChecks.Check(errors, "removedLitres", command.RemovedLitres);
        var added = command.WaterLitres + command.ConcentrateLitres;
        if (errors.Count == 0 && added == 0 && command.RemovedLitres == 0)
        {
            errors.Add(new("waterLitres", FieldProblem.Missing));
        }

        if (errors.Count == 0 && volumeThen is { } volume)
        {
            var brim = (decimal)sump.Geometry.BrimLitres;
            if (command.RemovedLitres > (decimal)volume)
            {
                errors.Add(new("removedLitres", FieldProblem.OutOfRange, command.RemovedLitres, 0, (decimal)volume, "L"));
            }
            else if ((decimal)volume - command.RemovedLitres + added > brim)
            {
                errors.Add(AmountChecks.OverTheBrim("waterLitres", command.WaterLitres, "concentrateLitres", command.ConcentrateLitres, brim - (decimal)volume + command.RemovedLitres));
            }
        }

        if (command.AddedAtUtc > now + ReadingChecks.AllowedClockSkew)
        {
            errors.Add(new("addedAt", FieldProblem.InTheFuture));
        }
        else if (command.AddedAtUtc < charge.FilledAtUtc)
        {
            errors.Add(new("addedAt", FieldProblem.BeforeTheFill, EarliestUtc: charge.FilledAtUtc));
        }

        return errors;
    }
}
