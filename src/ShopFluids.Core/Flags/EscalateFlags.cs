using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Escalations;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Time;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Core.Flags;

/// <summary>
/// Marks flags that nobody has answered in time as the supervisor's. Each is marked once for ever: after any downtime, on any number of
/// instances, and when the clock steps back. Word of it for each way out that is open is stored in the same transaction, to be sent afterwards.
/// </summary>
public sealed class EscalateFlagsHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news, EscalationChannels channels)
{
    /// <returns>How many flags were marked.</returns>
    public async Task<int> HandleAsync(CancellationToken cancellationToken)
    {
        var now = clock.UtcNow;
        await using (var db = await database.ReadAsync(cancellationToken))
        {
            var setup = await setups.CurrentAsync(db, cancellationToken);
            if ((await DueAsync(db, setup, now, cancellationToken)).IsEmpty)
            {
                return 0;
            }
        }

        await using var write = await database.WriteAsync(cancellationToken);
        var current = await setups.ForAsync(write, cancellationToken);
        var due = await DueAsync(write.Database, current, now, cancellationToken);
        if (!due.IsEmpty && channels.Open.Count > 0)
        {
            var content = await EscalationContent.OfAsync(write.Database, current, due.OfSumps, due.OfShop, cancellationToken);
            write.Database.AddRange(channels.Open.Select(c => new EscalationNotice(clock.NewId(), c, now, content)));
        }

        foreach (var flag in due.OfSumps)
        {
            write.Database.Attach(flag);
            flag.Escalate(now);
        }

        foreach (var flag in due.OfShop)
        {
            write.Database.Attach(flag);
            flag.Escalate(now);
        }

        await write.CommitAsync(new Act(ActCodes.FlagEscalated, Actor.Program, now, SubjectOf(due, current)), cancellationToken);
        foreach (var sumpId in due.OfSumps.Select(f => f.SumpId).Append(Guid.Empty).Distinct())
        {
            news.Publish(sumpId);
        }

        return due.OfSumps.Count + due.OfShop.Count;
    }

    // Whole tags, as many as an entry has room for; the flags themselves stand in it all the same.
    private static string SubjectOf(DueFlags due, ShopSetup setup) =>
        due.OfSumps.Select(f => setup.FindSump(f.SumpId)?.Tag).OfType<string>().Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)
            .Aggregate("", (subject, tag) => subject.Length == 0 ? tag : subject.Length + 2 + tag.Length <= RecordEntry.MaximumSubjectLength ? $"{subject}, {tag}" : subject);

    private static async Task<DueFlags> DueAsync(ShopFluidsDbContext db, ShopSetup setup, DateTime now, CancellationToken cancellationToken)
    {
        var ofShop = await db.ShopFlags.AsNoTracking().Where(f => f.AnsweredAtUtc == null && f.GoneAtUtc == null && f.EscalatedAtUtc == null).ToListAsync(cancellationToken);
        var ofSumps = (await db.Flags.AsNoTracking().Where(f => f.EndedAtUtc == null && f.EscalatedAtUtc == null).ToListAsync(cancellationToken))
            .FindAll(f => IsDue(f, null, setup, now));
        var answers = await FlagAnswers.OfAsync(db, ofSumps, cancellationToken);
        return new(
            ofSumps.FindAll(f => IsDue(f, answers.LastOn(f.SumpId), setup, now)),
            ofShop.FindAll(f => RuleRegistry.Escalation.IsDue(f.Severity, f.RaisedAtUtc, null, setup.Calendar, setup.TuningsFor(null, null).ByRule, now)));
    }

    private static bool IsDue(Flag flag, DateTime? answeredAt, ShopSetup setup, DateTime now) => RuleRegistry.Escalation.IsDue(
        flag.Severity, flag.RaisedAtUtc, answeredAt, setup.CalendarFor(flag.SumpId), setup.TuningsFor(flag.SumpId, setup.OpenCharge(flag.SumpId)?.FluidId).ByRule, now);

    private sealed record DueFlags(List<Flag> OfSumps, List<ShopFlag> OfShop)
    {
        public bool IsEmpty => OfSumps.Count == 0 && OfShop.Count == 0;
    }
}
