using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Rounds;

/// <summary>Passes sumps by on this day's round, with one reason for all of them: one sump, or all that are left when the round is finished.</summary>
/// <param name="Id">Made by the sender; sending it twice passes them by once.</param>
/// <param name="Reason">Null where none was chosen.</param>
/// <param name="Words">Needed where the reason is another one.</param>
/// <param name="SaidAtUtc">When it was said, where it waited on a tablet; null: now.</param>
public sealed record SkipStops(Guid Id, IReadOnlyList<string> SumpTags, SkipReason? Reason, string Words, DateTime? SaidAtUtc = null);

/// <param name="Skipped">Tags of the sumps that were passed by.</param>
/// <param name="NotDue">Those that nothing is due at any more, as when another person read them meanwhile.</param>
public sealed record StopsSkipped(IReadOnlyList<string> Skipped, IReadOnlyList<string> NotDue);

/// <summary>Nothing is due at any of the sumps.</summary>
public sealed record NothingToSkip(IReadOnlyList<string> Tags) : Error;

public sealed class SkipStopsHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public const string SumpsField = "sumps";
    public const string ReasonField = "reason";
    public const string WordsField = "words";

    public async Task<Result<StopsSkipped>> HandleAsync(SkipStops command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        var words = command.Words.Trim();
        if (Check(command, words) is { Count: > 0 } errors)
        {
            return new FieldErrors(errors);
        }

        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        var sumps = new List<Sump>();
        foreach (var tag in command.SumpTags.Distinct(StringComparer.OrdinalIgnoreCase))
        {
            if (setup.FindSump(tag) is not { } sump)
            {
                return new SumpNotFound(tag);
            }

            sumps.Add(sump);
        }

        var ids = sumps.ToDictionary(s => s.Id, s => SkippedStop.IdAt(command.Id, s.Id));
        var stored = await db.SkippedStops.AsNoTracking().Where(s => ids.Values.Contains(s.Id)).ToListAsync(cancellationToken);
        if (stored.Count > 0)
        {
            var known = sumps.ToLookup(s => stored.Exists(k => k.Id == ids[s.Id]), s => s.Tag);
            return stored.TrueForAll(s => s.Reason == command.Reason && s.Words == words) ? new StopsSkipped([.. known[true]], [.. known[false]]) : new OtherContentForId(command.Id);
        }

        var now = clock.UtcNow;
        var said = command.SaidAtUtc is { } at && at < now ? ShopClock.ToMillisecond(at) : now;
        var day = setup.Calendar.ShopDayOf(said);
        var standings = await db.Standings.AsNoTracking().ToDictionaryAsync(s => s.SumpId, cancellationToken);
        var skips = await StopSkip.OfDayAsync(db, day, cancellationToken);
        var due = sumps.ToLookup(WasDue);
        if (!due[true].Any())
        {
            return new NothingToSkip([.. sumps.Select(s => s.Tag)]);
        }

        // Each sump's act stands in the record by itself. The same said again is a second press of the same button.
        var changed = due[true].Where(s => !IsSaid(skips.GetValueOrDefault(s.Id), standings.GetValueOrDefault(s.Id)?.LastReadAtUtc)).ToList();
        for (var i = 0; i < changed.Count; i++)
        {
            db.SkippedStops.Add(new SkippedStop(ids[changed[i].Id], changed[i].Id, day, command.Reason ?? SkipReason.Other, words, said, actor.PersonId));
            var act = new Act(ActCodes.StopSkipped, actor, now, changed[i].Tag);
            await (i == changed.Count - 1 ? write.CommitAsync(act, cancellationToken) : write.RecordAsync(act, cancellationToken));
        }

        foreach (var sump in changed)
        {
            news.Publish(sump.Id);
        }

        return new StopsSkipped([.. due[true].Select(s => s.Tag)], [.. due[false].Select(s => s.Tag)]);

        // What waited on a tablet may have been answered by a reading meanwhile. It was said all the same, and is kept.
        bool WasDue(Sump sump)
        {
            var standing = standings.GetValueOrDefault(sump.Id);
            return RoundPageQuery.IsDue(setup, sump, standing?.NextTestDueAtUtc, setup.Calendar.EndOf(day)) || (said < now && standing?.LastReadAtUtc > said);
        }

        bool IsSaid(StopSkip? skip, DateTime? lastReadAtUtc) => skip is not null && skip.HoldsAfter(lastReadAtUtc) && skip.Reason == command.Reason && skip.Words == words;
    }

    private static List<FieldError> Check(SkipStops command, string words)
    {
        var errors = new List<FieldError>();
        if (command.Id == Guid.Empty)
        {
            errors.Add(new(FieldNames.Id, FieldProblem.Missing));
        }

        if (command.SumpTags.Count == 0)
        {
            errors.Add(new(SumpsField, FieldProblem.Missing));
        }

        if (command.Reason is null)
        {
            errors.Add(new(ReasonField, FieldProblem.Missing));
        }
        else if (!Enum.IsDefined(command.Reason.Value))
        {
            errors.Add(new(ReasonField, FieldProblem.UnknownChoice));
        }

        TextChecks.Check(errors, WordsField, words, SkippedStop.MaximumWordsLength, isRequired: command.Reason == SkipReason.Other);
        return errors;
    }
}
