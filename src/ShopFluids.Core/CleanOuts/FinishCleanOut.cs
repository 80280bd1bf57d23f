using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.CleanOuts;

/// <summary>
/// Ends a clean-out in one go: the old charge ends with what was drained, the new one begins with the refill from its lots, its first
/// reading is stored, the draining that was asked for is done, and what is due after a fill begins. All of it or nothing.
/// </summary>
/// <param name="Reading">The first reading of the new charge.</param>
public sealed record FinishCleanOut(Guid CleanOutId, RecordReading Reading);

/// <param name="IsNew">False when it was finished with this reading before.</param>
public sealed record FinishedCleanOut(Guid CleanOutId, ReadingOutcome Outcome, bool IsNew);

/// <summary>The lots of the refill can no longer give what was noted: somebody drew from them, barred one, or its day has passed.</summary>
public sealed record RefillNotPossible(IReadOnlyList<FieldError> Fields) : Error;

public sealed class FinishCleanOutHandler(ShopDatabase database, SetupCache setups, ShopClock clock, RecordReadingHandler readings)
{
    public Task<Result<FinishedCleanOut>> HandleAsync(FinishCleanOut command, Actor actor, CancellationToken cancellationToken) =>
        RunAsync(command, actor, isPreview: false, cancellationToken);

    /// <summary>Answers what finishing would answer, and stores nothing.</summary>
    public Task<Result<FinishedCleanOut>> PreviewAsync(FinishCleanOut command, Actor actor, CancellationToken cancellationToken) =>
        RunAsync(command, actor, isPreview: true, cancellationToken);

    private async Task<Result<FinishedCleanOut>> RunAsync(FinishCleanOut command, Actor actor, bool isPreview, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (await db.CleanOuts.FirstOrDefaultAsync(c => c.Id == command.CleanOutId, cancellationToken) is not { } cleanOut
            || setup.FindSump(command.Reading.SumpTag) is not { } sump || sump.Id != cleanOut.SumpId)
        {
            return new CleanOutNotFound(command.CleanOutId);
        }

        // What happens where and when is decided by now: the writers' lock is held.
        var reading = command.Reading with { TakenAtUtc = ShopClock.ToMillisecond(command.Reading.TakenAtUtc), SupersedesId = null, CorrectionReason = null };
        var known = await db.Readings.AsNoTracking().FirstOrDefaultAsync(r => r.Id == command.Reading.Id, cancellationToken);
        if (!cleanOut.IsOpen)
        {
            return cleanOut.ReadingId == command.Reading.Id && known?.Outcome is { } outcome && known.Fingerprint == ReadingFingerprint.Of(reading)
                ? new FinishedCleanOut(cleanOut.Id, outcome, IsNew: false)
                : new CleanOutIsOver(cleanOut.Id, cleanOut.ReadingId);
        }

        if (known is not null)
        {
            return new OtherContentForId(command.Reading.Id);
        }

        var steps = await db.CleanOutSteps.Where(s => s.CleanOutId == cleanOut.Id).ToListAsync(cancellationToken);
        if (CleanOutProgress.Missing(steps) is { } missing)
        {
            return new CleanOutStepMissing(missing);
        }

        var old = await db.Charges.SingleAsync(c => c.Id == cleanOut.ChargeId, cancellationToken);
        var refill = steps.Single(s => s.Kind == CleanOutStepKind.Refill);
        var drained = await DrainedAsync(db, cleanOut, old, steps, cancellationToken);
        var filledAt = refill.DoneAtUtc > drained.AtUtc ? refill.DoneAtUtc : drained.AtUtc;
        var errors = new List<FieldError>();
        var pours = await RefillLots.CheckAsync(db, errors, refill.Noted, old.FluidId, setup.Calendar.ShopDayOf(filledAt), cancellationToken);
        if (errors.Count > 0)
        {
            return new RefillNotPossible(errors);
        }

        // Each act has its own entry in the record, in the order in which they happened: a replay sees before the reading what was there before it.
        await new ChargeEnd(write, setup, clock).EndAsync(sump, old, drained, actor, cancellationToken);
        await write.RecordAsync(new Act(ActCodes.ChargeDrained, actor, clock.UtcNow, sump.Tag), cancellationToken);

        var water = refill.Noted.WaterLitres ?? 0;
        var fresh = new Charge(clock.NewId(), sump.Id, old.FluidId, old.Number + 1, filledAt, water + refill.Noted.AllConcentrateLitres());
        await new ChargeBegin(write, setup, clock).BeginAsync(sump, fresh, water, pours, actor, cancellationToken);
        await write.RecordAsync(new Act(ActCodes.ChargeFilled, actor, clock.UtcNow, sump.Tag), cancellationToken);

        var stored = await readings.StoreAsync(write, new(setup, sump, fresh), reading, actor, cancellationToken);
        if (stored.Value is null)
        {
            return stored.Error ?? throw new InvalidOperationException("A reading is stored or refused.");
        }

        if (!isPreview)
        {
            await write.RecordAsync(new Act(ActCodes.ReadingStored, actor, clock.UtcNow, sump.Tag), cancellationToken);
            cleanOut.Finish(clock.UtcNow, actor.PersonId, fresh.Id, reading.Id);
            await write.CommitAsync(new Act(ActCodes.CleanOutFinished, actor, clock.UtcNow, sump.Tag), cancellationToken);
            readings.Tell(sump, stored.Value.Outcome);
        }

        return new FinishedCleanOut(cleanOut.Id, stored.Value.Outcome, IsNew: true);
    }

    // A level or an addition that was noted meanwhile still belongs to the old charge: it cannot have ended before.
    private async Task<Drained> DrainedAsync(ShopFluidsDbContext db, CleanOut cleanOut, Charge old, List<CleanOutStep> steps, CancellationToken cancellationToken)
    {
        var drain = steps.Single(s => s.Kind == CleanOutStepKind.Drain);
        var latest = await ChargeEnd.LatestEntryAsync(db, old, cancellationToken);
        var seen = steps.Find(s => s.Kind == CleanOutStepKind.Inspect)?.Noted.Text;
        var sludge = drain.Noted.SludgeMm;
        return new(
            clock.NewId(),
            drain.DoneAtUtc > latest ? drain.DoneAtUtc : latest,
            drain.Noted.AllWasteLitres(),
            new WorkFind(sludge is null ? "" : FindNames.SludgeMm, sludge, seen ?? ""),
            cleanOut.Id);
    }
}
