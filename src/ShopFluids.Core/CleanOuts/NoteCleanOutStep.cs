using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.CleanOuts;

/// <summary>Ticks a step of a clean-out with what was noted, or puts right what was noted before. The plan begins it.</summary>
/// <param name="CleanOutId">Made by whoever begins; sending the same step twice notes it once.</param>
/// <param name="SeenRound">The round of the step that the page showed; 0 where it was open.</param>
public sealed record NoteCleanOutStep(Guid CleanOutId, string SumpTag, CleanOutStepKind Kind, int SeenRound, CleanOutNote Note);

/// <param name="IsNew">False when just this stood there already.</param>
public sealed record NotedCleanOutStep(Guid CleanOutId, CleanOutStepKind Kind, int Round, bool IsNew);

public sealed record CleanOutNotFound(Guid Id) : Error;

/// <summary>It has ended: finished, or broken off.</summary>
/// <param name="ReadingId">The first reading of the new charge; null when it was broken off.</param>
public sealed record CleanOutIsOver(Guid Id, Guid? ReadingId) : Error;

/// <summary>An earlier step is still open.</summary>
public sealed record CleanOutStepMissing(CleanOutStepKind Kind) : Error;

/// <summary>Somebody noted something else at this step since the page was shown.</summary>
public sealed record CleanOutStepChanged(CleanOutStepKind Kind) : Error;

/// <summary>A step on which safety or the books hang cannot be left out.</summary>
public sealed record CleanOutStepNeeded(CleanOutStepKind Kind) : Error;

public sealed class NoteCleanOutStepHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<NotedCleanOutStep>> HandleAsync(NoteCleanOutStep command, Actor actor, bool isSupervisor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.FindSump(command.SumpTag) is not { } sump)
        {
            return new SumpNotFound(command.SumpTag);
        }

        // The writers' lock is held: of two tablets that press at once, the second sees what the first one noted.
        var cleanOut = await db.CleanOuts.FirstOrDefaultAsync(c => c.Id == command.CleanOutId && c.SumpId == sump.Id, cancellationToken);
        if (cleanOut is { IsOpen: false })
        {
            return new CleanOutIsOver(cleanOut.Id, cleanOut.ReadingId);
        }

        if (setup.OpenCharge(sump.Id) is not { } charge)
        {
            return new NoOpenCharge(sump.Tag);
        }

        var begins = cleanOut is null;
        if (cleanOut is null)
        {
            if (await RefusalToBeginAsync(db, command, sump, charge, cancellationToken) is { } refusal)
            {
                return refusal;
            }

            cleanOut = new CleanOut(command.CleanOutId, sump.Id, charge.Id, clock.UtcNow);
        }

        var steps = await db.CleanOutSteps.Where(s => s.CleanOutId == cleanOut.Id).ToListAsync(cancellationToken);
        var note = (isSupervisor ? command.Note : command.Note with { OverrideReason = null }).Kept();
        var known = steps.Find(s => s.Kind == command.Kind);
        if (known is not null && JsonColumn.Write(known.Noted) == JsonColumn.Write(note))
        {
            return new NotedCleanOutStep(cleanOut.Id, command.Kind, known.Round, IsNew: false);
        }

        if ((known?.Round ?? 0) != command.SeenRound)
        {
            return new CleanOutStepChanged(command.Kind);
        }

        if (CleanOutProgress.MissingBefore(command.Kind, steps) is { } missing)
        {
            return new CleanOutStepMissing(missing);
        }

        if (note.IsLeftOut && !CleanOutSteps.MayBeLeftOut(command.Kind))
        {
            return new CleanOutStepNeeded(command.Kind);
        }

        var now = clock.UtcNow;
        var errors = CleanOutChecks.Check(command.Kind, note, sump).ToList();
        if (command.Kind == CleanOutStepKind.Refill)
        {
            await RefillLots.CheckAsync(db, errors, note, charge.FluidId, setup.Calendar.ShopDayOf(now), cancellationToken);
        }

        if (command.Kind == CleanOutStepKind.Cleaner && CleanOutChecks.Circulation(note, steps, known?.DoneAtUtc ?? now) is { } tooShort)
        {
            errors.Add(tooShort);
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        if (begins)
        {
            db.Add(cleanOut);
        }

        var personId = actor.PersonId ?? Guid.Empty;
        if (known is null)
        {
            db.Add(new CleanOutStep(clock.NewId(), cleanOut.Id, command.Kind, now, personId, note));
        }
        else
        {
            known.PutRight(note, personId);
        }

        await write.CommitAsync(new Act(ActCodes.CleanOutNoted, actor, now, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return new NotedCleanOutStep(cleanOut.Id, command.Kind, known?.Round ?? 1, IsNew: true);
    }

    private static async Task<Error?> RefusalToBeginAsync(ShopFluidsDbContext db, NoteCleanOutStep command, Sump sump, Charge charge, CancellationToken cancellationToken)
    {
        if (sump.IsRetired)
        {
            return new SumpRetired(sump.Tag);
        }

        if (command.Kind != CleanOutStepKind.Plan || await db.CleanOuts.AnyAsync(c => c.Id == command.CleanOutId, cancellationToken))
        {
            return new CleanOutNotFound(command.CleanOutId);
        }

        return await db.CleanOuts.AnyAsync(c => c.ChargeId == charge.Id && c.EndedAtUtc == null, cancellationToken) ? new CleanOutStepChanged(command.Kind) : null;
    }
}
