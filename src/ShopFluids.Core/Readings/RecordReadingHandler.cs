using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Photos;
using ShopFluids.Core.Readings.Corrections;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Readings;

/// <summary>Stores a reading and everything that follows from it in one transaction; the same id again answers the same.</summary>
public sealed class RecordReadingHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news, ILogger<RecordReadingHandler> log)
{
    private readonly HotQueries _queries = new();
    private readonly ChargeHistoryQuery _history = new();

    public async Task<Result<RecordedReading>> HandleAsync(RecordReading command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        command = command with { TakenAtUtc = ShopClock.ToMillisecond(command.TakenAtUtc) };
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);

        // The writers' lock is held: whoever posted this id first is done, so a race has already been decided.
        var known = await _queries.Known(db, command.Id, cancellationToken);
        if (known is not null)
        {
            return known.Fingerprint == ReadingFingerprint.Of(command) && known.Outcome is not null ? new RecordedReading(known.Outcome, IsNew: false) : new OtherContentForId(command.Id);
        }

        if (SumpWithCharge.Find(setup, command.SumpTag).IsRefused(out var refusal, out var found))
        {
            return refusal;
        }

        var (sump, charge) = found;

        var stored = await StoreAsync(write, new(setup, sump, charge), command, actor, cancellationToken);
        if (stored.Value is null)
        {
            return stored;
        }

        await write.CommitAsync(new Act(command.SupersedesId is null ? ActCodes.ReadingStored : ActCodes.ReadingCorrected, actor, clock.UtcNow, sump.Tag), cancellationToken);
        Tell(sump, stored.Value.Outcome);
        return stored;
    }

    /// <summary>Says that a reading was committed.</summary>
    internal void Tell(Sump sump, ReadingOutcome outcome)
    {
        log.ReadingStored(outcome.ReadingId, sump.Id, outcome.Raised.Count);
        news.Publish(sump.Id);
    }

    /// <summary>Checks a reading whose id is new and stores it with what follows from it, within a write; the caller says by which act, and commits.</summary>
    internal async Task<Result<RecordedReading>> StoreAsync(ShopWrite write, ReadAt place, RecordReading command, Actor actor, CancellationToken cancellationToken)
    {
        var (setup, sump, charge) = place;
        var db = write.Database;
        var now = clock.UtcNow;
        var (worked, errors) = ReadingChecks.Check(command, setup, sump, charge, now, await ReadingCorrection.HeldAsync(db, command.SupersedesId, cancellationToken));
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var standing = await _queries.Standing(db, sump.Id, cancellationToken);
        if (command.SupersedesId is { } supersededId)
        {
            if (await ReadingCorrection.CheckAsync(db, supersededId, charge, cancellationToken) is { } error)
            {
                return error;
            }

            (await StandingRebuild.FromHistoryAsync(db, sump, cancellationToken, withoutReading: supersededId)).ApplyTo(standing);
        }

        var facts = standing.Facts ?? StandingFold.Fresh(charge.FilledAtUtc, []);
        var judge = ReadingJudge.For(setup, sump, charge, command.TakenAtUtc);
        var history = await _history.RunAsync(db, charge, command.TakenAtUtc, cancellationToken, without: command.SupersedesId);
        var late = await LateArrivals.ForAsync(db, command, standing, charge, cancellationToken);
        var evaluation = judge.Judge(ReadingJudge.FactsOf(command, worked), facts, history, now, late);
        var outcome = ReadingJudge.Outcome(command.Id, worked, evaluation, facts, clock.NewId);
        var reading = ReadingConsequences.MakeReading(command, actor, judge, now, worked, evaluation, outcome);
        db.Add(reading);
        if (command.Photo is { } picture)
        {
            db.Add(new Photo(reading, picture));
            db.Add(new PhotoContent(reading.Id, picture));
        }

        var consequences = await ApplyAsync(db, reading, outcome, evaluation, facts, judge, actor, now, cancellationToken);

        // What was read or moved later than this reading still counts after it: only the history knows in which way.
        if (standing.LastReadAtUtc > command.TakenAtUtc || facts.LastMovedAt > command.TakenAtUtc || command.SupersedesId is not null)
        {
            await write.FlushAsync(cancellationToken);
            (await StandingRebuild.FromHistoryAsync(db, sump, cancellationToken)).ApplyTo(standing);
        }
        else
        {
            var next = StandingFold.With(StandingFold.Add(facts, reading.TakenAtUtc, reading.Measurements), consequences.OpenFlags, consequences.OpenTasks);
            var level = worked.FirstOrDefault(w => w.Parameter.Code == ParameterCodes.Level);
            standing.Set(charge.Id, next, reading.TakenAtUtc, level is null ? standing.VolumeLitres : StandingRebuild.VolumeAt(sump, level.Value));
        }

        return new RecordedReading(outcome, IsNew: true);
    }

    /// <summary>Makes and ends the flags and tasks; answers what is open afterwards.</summary>
    private static async Task<ReadingConsequences> ApplyAsync(
        ShopFluidsDbContext db, Reading reading, ReadingOutcome outcome, Evaluation evaluation, StandingFacts facts, ReadingJudge judge, Actor actor, DateTime now, CancellationToken cancellationToken)
    {
        var cleared = outcome.Cleared.Select(f => f.Id).ToList();
        var ended = outcome.Done.Concat(outcome.Withdrawn).Select(t => t.Id).ToList();
        var isRenewed = evaluation.Recipe is not null && facts.OpenTasks.Any(t => t.Kind == TaskKind.Adjust && !ended.Contains(t.Id));
        var touched = new TouchedRows(
            cleared.Count == 0 ? [] : await db.Flags.Where(f => cleared.Contains(f.Id)).ToListAsync(cancellationToken),
            ended.Count == 0 ? [] : await db.CareTasks.Where(t => ended.Contains(t.Id)).ToListAsync(cancellationToken),
            !isRenewed ? [] : await db.CareTasks.Where(t => t.SumpId == reading.SumpId && t.Kind == TaskKind.Adjust && t.State == TaskState.Open && !ended.Contains(t.Id)).ToListAsync(cancellationToken));
        var consequences = ReadingConsequences.Of(reading, outcome, evaluation, facts, judge, touched, actor, now);
        db.AddRange(consequences.Raised);
        db.AddRange(consequences.Made);
        return consequences;
    }
}

/// <summary>Where a reading belongs: the charge may be one that the same write has just begun.</summary>
internal sealed record ReadAt(ShopSetup Setup, Sump Sump, Charge Charge);
