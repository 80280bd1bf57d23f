using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
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

        await write.CommitAsync(new Act(ActCodes.FlagEscalated, Actor.Program, now, ""), cancellationToken);
        foreach (var sumpId in due.OfSumps.Select(f => f.SumpId).Append(Guid.Empty).Distinct())
        {
            news.Publish(sumpId);
        }

        return due.OfSumps.Count + due.OfShop.Count;
    }

    private static async Task<DueFlags> DueAsync(ShopFluidsDbContext db, ShopSetup setup, DateTime now, CancellationToken cancellationToken)
    {
        var ofShop = await db.ShopFlags.AsNoTracking().Where(f => f.AnsweredAtUtc == null && f.GoneAtUtc == null && f.EscalatedAtUtc == null).ToListAsync(cancellationToken);
        var ofSumps = (await db.Flags.AsNoTracking().Where(f => f.EndedAtUtc == null && f.EscalatedAtUtc == null).ToListAsync(cancellationToken))
            .FindAll(f => IsDue(f, null, setup, now));
        var answers = await AnswersAsync(db, [.. ofSumps.Select(f => f.SumpId).Distinct()], cancellationToken);
        return new(
            ofSumps.FindAll(f => IsDue(f, answers.LastOn(f), setup, now)),
            ofShop.FindAll(f => RuleRegistry.Escalation.IsDue(f.Severity, f.RaisedAtUtc, null, setup.Calendar, setup.TuningsFor(null, null).ByRule, now)));
    }

    private static bool IsDue(Flag flag, DateTime? answeredAt, ShopSetup setup, DateTime now) => RuleRegistry.Escalation.IsDue(
        flag.Severity, flag.RaisedAtUtc, answeredAt, setup.CalendarFor(flag.SumpId), setup.TuningsFor(flag.SumpId, setup.OpenCharge(flag.SumpId)?.FluidId).ByRule, now);

    // Work given to somebody is answered for as long as it is open; for when it was given no column is kept, and none is needed.
    private static async Task<Answers> AnswersAsync(ShopFluidsDbContext db, List<Guid> sumpIds, CancellationToken cancellationToken)
    {
        if (sumpIds.Count == 0)
        {
            return new([], []);
        }

        var given = await db.CareTasks.AsNoTracking().Where(t => sumpIds.Contains(t.SumpId) && t.State == TaskState.Open && t.AssignedToId != null)
            .Select(t => t.SumpId).Distinct().ToListAsync(cancellationToken);
        var ended = await db.CareTasks.AsNoTracking().Where(t => sumpIds.Contains(t.SumpId) && t.EndedByPersonId != null)
            .GroupBy(t => t.SumpId).Select(g => new { SumpId = g.Key, At = g.Max(t => t.EndedAtUtc) }).ToListAsync(cancellationToken);
        var standings = await db.Standings.AsNoTracking().Where(s => sumpIds.Contains(s.SumpId)).ToListAsync(cancellationToken);
        var lasts = standings.Select(s => (s.SumpId, At: s.LastReadAtUtc))
            .Concat(standings.Select(s => (s.SumpId, At: s.Facts?.LastMovedAt)))
            .Concat(ended.Select(e => (e.SumpId, e.At)))
            .Where(a => a.At is not null)
            .GroupBy(a => a.SumpId)
            .ToDictionary(g => g.Key, g => g.Max(a => a.At));
        return new([.. given], lasts);
    }

    private sealed record DueFlags(List<Flag> OfSumps, List<ShopFlag> OfShop)
    {
        public bool IsEmpty => OfSumps.Count == 0 && OfShop.Count == 0;
    }

    private sealed record Answers(HashSet<Guid> Given, Dictionary<Guid, DateTime?> Lasts)
    {
        public DateTime? LastOn(Flag flag) => Given.Contains(flag.SumpId) ? DateTime.MaxValue.ToUniversalTime() : Lasts.GetValueOrDefault(flag.SumpId);
    }
}
