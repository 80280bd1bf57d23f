using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;

namespace ShopFluids.Core.Flags;

/// <summary>
/// Raises what the passing of time alone raises. Safe on any number of instances and after any downtime: the writers' lock
/// makes them take turns, and a flag that is open is not raised again.
/// </summary>
public sealed class NoticeOverdueHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    /// <returns>How many flags were raised.</returns>
    public async Task<int> HandleAsync(CancellationToken cancellationToken)
    {
        // A look without the lock first: most minutes have no news, and a look must not make writers wait.
        await using (var db = await database.ReadAsync(cancellationToken))
        {
            var setup = await setups.CurrentAsync(db, cancellationToken);
            if (!await AnyLateAsync(db, setup, cancellationToken))
            {
                return 0;
            }
        }

        await using var write = await database.WriteAsync(cancellationToken);
        var current = await setups.ForAsync(write, cancellationToken);
        var now = clock.UtcNow;
        var changed = new List<Guid>();
        foreach (var standing in await write.Database.Standings.Where(s => s.ChargeId != null && s.NextTestDueAtUtc <= now).ToListAsync(cancellationToken))
        {
            if (standing.Facts is not { } facts || standing.ChargeId is not { } chargeId)
            {
                continue;
            }

            var raised = RulesService.EvaluateClock(facts, current.CalendarFor(standing.SumpId), now);
            if (raised.Count == 0)
            {
                continue;
            }

            var flags = raised.Select(r => new Flag(clock.NewId(), standing.SumpId, chargeId, r, null, now, null)).ToList();
            write.Database.AddRange(flags);
            standing.Set(chargeId, StandingFold.With(facts, facts.OpenFlags.Concat(flags.Select(f => f.ToOpen())), facts.OpenTasks), standing.LastReadAtUtc, standing.VolumeLitres);
            changed.Add(standing.SumpId);
        }

        await write.CommitAsync(new Act(ActCodes.OverdueNoticed, Actor.Program, now, ""), cancellationToken);
        changed.ForEach(news.Publish);
        return changed.Count;
    }

    private async Task<bool> AnyLateAsync(ShopFluidsDbContext db, ShopSetup setup, CancellationToken cancellationToken)
    {
        var now = clock.UtcNow;
        var late = await db.Standings.AsNoTracking().Where(s => s.ChargeId != null && s.NextTestDueAtUtc <= now).ToListAsync(cancellationToken);
        return late.Exists(s => s.Facts is { } facts && RulesService.EvaluateClock(facts, setup.CalendarFor(s.SumpId), now).Count > 0);
    }
}
