using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules.UnreadSlide;

namespace ShopFluids.Core.Slides;

/// <summary>Ends a slide: by what was read of it, which is stored as measured when it was dipped, or by throwing it away.</summary>
/// <param name="Read">Null where it is discarded, for the reason.</param>
public sealed record EndSlide(Guid SlideId, SlideRead? Read, string Reason = "");

/// <summary>What was read of a slide.</summary>
/// <param name="ReadingId">Made by the sender; sending it twice stores it once.</param>
/// <param name="Unit">As typed; null or empty takes the parameter's usual one.</param>
public sealed record SlideRead(Guid ReadingId, DateTime ReadAtUtc, decimal Value, string? Unit = null);

/// <param name="Outcome">Of its reading; null where it was discarded.</param>
/// <param name="IsLate">It was read after its window.</param>
public sealed record EndedSlide(Guid SlideId, string SumpTag, ReadingOutcome? Outcome, bool IsLate, bool IsNew);

public sealed record SlideNotFound(Guid Id) : Error;

/// <summary>It was read or discarded before, in another way.</summary>
public sealed record SlideEndedAlready(Guid Id, SlideEnd How) : Error;

/// <summary>Nothing has grown yet.</summary>
public sealed record SlideTooEarly(DateTime ReadFromUtc) : Error;

/// <summary>Nothing can be told from it any more: it is to be discarded.</summary>
public sealed record SlideTooLate(DateTime LastReadableUtc) : Error;

public sealed class EndSlideHandler(ShopDatabase database, SetupCache setups, ShopClock clock, RecordReadingHandler readings, ShopNews news)
{
    public async Task<Result<EndedSlide>> HandleAsync(EndSlide command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (await db.Slides.FirstOrDefaultAsync(s => s.Id == command.SlideId, cancellationToken) is not { } slide)
        {
            return new SlideNotFound(command.SlideId);
        }

        var sump = setup.Sumps.First(s => s.Id == slide.SumpId);
        if (!slide.IsOpen)
        {
            return await EndedBeforeAsync(db, sump, slide, command, cancellationToken);
        }

        return command.Read is { } read
            ? await ReadAsync(write, new(setup, sump, setup.OpenCharge(sump.Id) ?? throw new InvalidOperationException("A charge ends with its slides.")), slide, read, actor, cancellationToken)
            : await DiscardAsync(write, sump, slide, command.Reason.Trim(), actor, cancellationToken);
    }

    // A second press of the same button is the same act.
    private static async Task<Result<EndedSlide>> EndedBeforeAsync(ShopFluidsDbContext db, Sump sump, Slide slide, EndSlide command, CancellationToken cancellationToken)
    {
        if (slide.ReadingId is { } readingId && command.Read?.ReadingId == readingId)
        {
            var outcome = await db.Readings.AsNoTracking().Where(r => r.Id == readingId).Select(r => r.Outcome).SingleAsync(cancellationToken);
            return new EndedSlide(slide.Id, sump.Tag, outcome, slide.IsReadLate, IsNew: false);
        }

        return slide.EndedHow == SlideEnd.Discarded && command.Read is null && slide.EndReason == command.Reason.Trim()
            ? new EndedSlide(slide.Id, sump.Tag, null, IsLate: false, IsNew: false)
            : new SlideEndedAlready(slide.Id, slide.EndedHow ?? SlideEnd.Discarded);
    }

    private async Task<Result<EndedSlide>> ReadAsync(ShopWrite write, ReadAt place, Slide slide, SlideRead read, Actor actor, CancellationToken cancellationToken)
    {
        var now = clock.UtcNow;
        var readAt = ShopClock.ToMillisecond(read.ReadAtUtc);
        if (readAt > now + ReadingChecks.AllowedClockSkew)
        {
            return new FieldErrors([new(SlideFields.ReadAt, FieldProblem.InTheFuture)]);
        }

        if (readAt < slide.ReadFromUtc)
        {
            return new SlideTooEarly(slide.ReadFromUtc);
        }

        if (readAt > slide.DippedAtUtc + UnreadSlideRule.Longest)
        {
            return new SlideTooLate(slide.DippedAtUtc + UnreadSlideRule.Longest);
        }

        if (await write.Database.Readings.AnyAsync(r => r.Id == read.ReadingId, cancellationToken))
        {
            return new OtherContentForId(read.ReadingId);
        }

        var reading = new RecordReading(read.ReadingId, place.Sump.Tag, slide.DippedAtUtc, "", [new(slide.Parameter, null, read.Value, read.Unit, IsConfirmed: true)]);
        var stored = await readings.StoreAsync(write, place, reading, actor, cancellationToken);
        if (stored.Value is null)
        {
            return stored.Error ?? throw new InvalidOperationException("A reading is stored or refused.");
        }

        // Two entries in the record: a replay sees before the reading what was there before it.
        await write.RecordAsync(new Act(ActCodes.ReadingStored, actor, now, place.Sump.Tag), cancellationToken);
        slide.Read(readAt, actor.PersonId, read.ReadingId);
        await SlideWork.EndAsync(write, slide, now, actor.PersonId, cancellationToken);
        await StandingKeeper.RefreshAsync(write, place.Sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.SlideRead, actor, now, place.Sump.Tag), cancellationToken);
        readings.Tell(place.Sump, stored.Value.Outcome);
        return new EndedSlide(slide.Id, place.Sump.Tag, stored.Value.Outcome, slide.IsReadLate, IsNew: true);
    }

    private async Task<Result<EndedSlide>> DiscardAsync(ShopWrite write, Sump sump, Slide slide, string reason, Actor actor, CancellationToken cancellationToken)
    {
        var errors = new List<FieldError>();
        TextChecks.Check(errors, SlideFields.Reason, reason, Slide.MaximumReasonLength);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var now = clock.UtcNow;
        slide.Discard(now, actor.PersonId, reason);
        await SlideWork.EndAsync(write, slide, now, actor.PersonId, cancellationToken);
        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.SlideDiscarded, actor, now, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return new EndedSlide(slide.Id, sump.Tag, null, IsLate: false, IsNew: true);
    }
}
