using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Flags;

/// <summary>
/// Raises what the passing of time alone raises. Safe on any number of instances and after any downtime: the writers' lock
/// makes them take turns, and a flag that is open is not raised again.
/// </summary>
public sealed class NoticeOverdueHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    /// <returns>For how many sumps something was raised.</returns>
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
        foreach (var standing in await write.Database.Standings.Where(s => s.ChargeId != null && (s.NextTestDueAtUtc == null || s.NextDueAtUtc <= now)).ToListAsync(cancellationToken))
        {
            if (standing.Facts is not { } facts || standing.ChargeId is not { } chargeId)
            {
                continue;
            }

            var (calendar, tunings) = (current.CalendarFor(standing.SumpId), TuningsOf(current, standing.SumpId));
            var raised = await RaisedAsync(write.Database, standing.SumpId, facts, calendar, tunings, now, cancellationToken);
            if (raised.Count == 0)
            {
                continue;
            }

            var flags = raised.Select(r => new Flag(clock.NewId(), standing.SumpId, chargeId, r, null, now, null, tunings.NumbersOf(r.Rule))).ToList();
            var tasks = RulesService.WorkOfClock(raised, facts.OpenTasks, calendar, now)
                .Select(t => new CareTask(clock.NewId(), standing.SumpId, t.Kind, t.Cause, t.StepId, t.DueAt, now, null, null)).ToList();
            write.Database.AddRange(flags);
            write.Database.AddRange(tasks);
            standing.Set(chargeId, StandingFold.With(facts, facts.OpenFlags.Concat(flags.Select(f => f.ToOpen())), facts.OpenTasks.Concat(tasks.Select(t => t.ToOpen()))), standing.LastReadAtUtc, standing.VolumeLitres);
            changed.Add(standing.SumpId);
        }

        await write.CommitAsync(new Act(ActCodes.OverdueNoticed, Actor.Program, now, ""), cancellationToken);
        changed.ForEach(news.Publish);
        return changed.Count;
    }

    private async Task<bool> AnyLateAsync(ShopFluidsDbContext db, ShopSetup setup, CancellationToken cancellationToken)
    {
        var now = clock.UtcNow;
        foreach (var standing in await db.Standings.AsNoTracking().Where(s => s.ChargeId != null && (s.NextTestDueAtUtc == null || s.NextDueAtUtc <= now)).ToListAsync(cancellationToken))
        {
            if (standing.Facts is { } facts && (await RaisedAsync(db, standing.SumpId, facts, setup.CalendarFor(standing.SumpId), TuningsOf(setup, standing.SumpId), now, cancellationToken)).Count > 0)
            {
                return true;
            }
        }

        return false;
    }

    private static TuningsInForce TuningsOf(ShopSetup setup, Guid sumpId) => setup.TuningsFor(sumpId, setup.OpenCharge(sumpId)?.FluidId);

    // A supervisor who closed such a flag knows why: the same is not raised again.
    private static async Task<IReadOnlyList<RaisedFlag>> RaisedAsync(
        ShopFluidsDbContext db, Guid sumpId, StandingFacts facts, ShopCalendar calendar, TuningsInForce tunings, DateTime now, CancellationToken cancellationToken)
    {
        var raised = new List<RaisedFlag>();
        foreach (var flag in RulesService.EvaluateClock(facts, calendar, tunings.ByRule, now))
        {
            var since = RulesService.ClockBeganAt(flag.Rule, facts, now);
            if (!await db.Flags.AnyAsync(f => f.SumpId == sumpId && f.Rule == flag.Rule && f.EndedHow == FlagEnd.Closed && f.EndedAtUtc > since, cancellationToken))
            {
                raised.Add(flag);
            }
        }

        return raised;
    }
}
