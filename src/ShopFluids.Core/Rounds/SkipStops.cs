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
/// <param name="Reason">Null where none was chosen.</param>
/// <param name="Words">Needed where the reason is another one.</param>
public sealed record SkipStops(IReadOnlyList<string> SumpTags, SkipReason? Reason, string Words);

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

        var now = clock.UtcNow;
        var today = setup.Calendar.ShopDayOf(now);
        var standings = await db.Standings.AsNoTracking().ToDictionaryAsync(s => s.SumpId, cancellationToken);
        var skips = await StopSkip.OfDayAsync(db, today, cancellationToken);
        var due = sumps.ToLookup(s => RoundPageQuery.IsDue(setup, s, standings.GetValueOrDefault(s.Id)?.NextTestDueAtUtc, setup.Calendar.EndOf(today)));
        if (!due[true].Any())
        {
            return new NothingToSkip([.. sumps.Select(s => s.Tag)]);
        }

        // Each sump's act stands in the record by itself. The same said again is a second press of the same button.
        var changed = due[true].Where(s => !IsSaid(skips.GetValueOrDefault(s.Id), standings.GetValueOrDefault(s.Id)?.LastReadAtUtc)).ToList();
        for (var i = 0; i < changed.Count; i++)
        {
            db.SkippedStops.Add(new SkippedStop(clock.NewId(), changed[i].Id, today, command.Reason ?? SkipReason.Other, words, now, actor.PersonId));
            var act = new Act(ActCodes.StopSkipped, actor, now, changed[i].Tag);
            await (i == changed.Count - 1 ? write.CommitAsync(act, cancellationToken) : write.RecordAsync(act, cancellationToken));
        }

        foreach (var sump in changed)
        {
            news.Publish(sump.Id);
        }

        return new StopsSkipped([.. due[true].Select(s => s.Tag)], [.. due[false].Select(s => s.Tag)]);

        bool IsSaid(StopSkip? skip, DateTime? lastReadAtUtc) => skip is not null && skip.HoldsAfter(lastReadAtUtc) && skip.Reason == command.Reason && skip.Words == words;
    }

    private static List<FieldError> Check(SkipStops command, string words)
    {
        var errors = new List<FieldError>();
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
