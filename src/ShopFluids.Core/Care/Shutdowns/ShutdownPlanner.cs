using Microsoft.EntityFrameworkCore;
using ShopFluids.Calculations.Upkeep;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Core.Care.Shutdowns;

/// <summary>Makes the work that a shutdown asks of a sump, and moves what would fall due while nobody is there.</summary>
internal sealed class ShutdownPlanner(ShopFluidsDbContext db, ShopSetup setup, ShopClock clock)
{
    private readonly ChargeHistoryQuery _history = new();

    /// <summary>From how many days on what is done; common practice, no source.</summary>
    public static ShutdownLimits Thresholds { get; } = new();

    /// <returns>How many tasks were made.</returns>
    public async Task<int> PlanAsync(Shutdown shutdown, Sump sump, Charge charge, ShopCalendar calendar, CancellationToken cancellationToken)
    {
        var now = clock.UtcNow;
        var standing = await db.Standings.AsNoTracking().SingleAsync(s => s.SumpId == sump.Id, cancellationToken);
        var stands = shutdown.ToFacts().WithClosedDaysAround(calendar);
        var plan = ShutdownAdvice.For(
            stands.Days,
            ShopSetup.FactsOf(sump),
            setup.FactsOf(setup.Fluid(charge.FluidId)),
            standing.Facts ?? StandingFold.Fresh(charge.FilledAtUtc, []),
            standing.VolumeLitres,
            await _history.RunAsync(db, charge, now, cancellationToken),
            setup.LimitsAt(sump.Id, charge.FluidId, now).Limits,
            Thresholds);
        var tasks = ShutdownWork.Plan(stands, plan, Thresholds, calendar, now);

        // The recipe of an adjustment that is open already holds here too, until a reading gives a fresher one to both.
        var recipe = await db.CareTasks.AsNoTracking().Where(t => t.SumpId == sump.Id && t.Kind == TaskKind.Adjust && t.State == TaskState.Open && t.Recipe != null)
            .OrderByDescending(t => t.CreatedAtUtc).Select(t => t.Recipe).FirstOrDefaultAsync(cancellationToken);
        db.AddRange(tasks.Select(t => new CareTask(clock.NewId(), sump.Id, t.Kind, t.Cause, t.StepId, t.DueAt, now, null, t.Kind == TaskKind.Adjust ? recipe : null)));
        return tasks.Count;
    }

    /// <summary>What other shutdowns asked for whose days are all in this one goes: this one asks for it, once.</summary>
    public async Task EndCoveredAsync(Shutdown shutdown, Sump sump, Guid? personId, CancellationToken cancellationToken)
    {
        var causes = setup.Shutdowns.Where(s => s.Id != shutdown.Id && s.Concerns(sump.Id) && Touches(s, shutdown)).SelectMany(s => ShutdownWork.CausesOf(s.Id)).ToList();
        if (causes.Count == 0)
        {
            return;
        }

        foreach (var task in await db.CareTasks.Where(t => t.SumpId == sump.Id && t.State == TaskState.Open && causes.Contains(t.Cause)).ToListAsync(cancellationToken))
        {
            task.End(TaskState.Withdrawn, clock.UtcNow, personId);
        }
    }

    /// <summary>Whether another shutdown has every day of this one, and with them its work.</summary>
    public bool IsCovered(Shutdown shutdown, Guid sumpId) =>
        setup.Shutdowns.Any(s => s.Id != shutdown.Id && s.Concerns(sumpId) && s.ToFacts().Covers(shutdown.ToFacts()));

    /// <summary>Shutdowns that still stand when this one is over: what they ask for is asked for again.</summary>
    public IEnumerable<Shutdown> Remaining(Shutdown ended, Guid sumpId, DateOnly today) =>
        setup.Shutdowns.Where(s => s.Id != ended.Id && s.Concerns(sumpId) && s.LastDay >= today);

    // They share a day, or one begins the day after the other ends.
    private static bool Touches(Shutdown a, Shutdown b) => a.FirstDay <= b.LastDay.AddDays(1) && b.FirstDay <= a.LastDay.AddDays(1);

    /// <summary>
    /// Moves open work off the days of the shutdown, never into the past: the plan's by the policy of its step, what a flag asked for to before it.
    /// </summary>
    public async Task MoveAsync(Shutdown shutdown, Sump sump, ShopCalendar calendar, CancellationToken cancellationToken)
    {
        var steps = setup.StepsOf(sump.Id).ToDictionary(s => s.Id);
        var today = calendar.ShopDayOf(clock.UtcNow);
        foreach (var task in await db.CareTasks.Where(t => t.SumpId == sump.Id && t.State == TaskState.Open).ToListAsync(cancellationToken))
        {
            // What another shutdown asked for keeps the day that it chose.
            var day = CareSchedule.DueDayOf(task.DueAtUtc, calendar);
            if (!shutdown.Stands(sump.Id, day) || ShutdownWork.IsCause(task.Cause))
            {
                continue;
            }

            var step = task.StepId is { } id ? steps.GetValueOrDefault(id) : null;
            var shown = CareSchedule.Shown(day, step?.ClosedDays ?? ClosedDayPolicy.Earlier, calendar);
            task.Move(CareSchedule.DueAt(shown < today ? OpenDays.OnOrAfter(day, calendar) : shown, calendar, step?.Shift ?? 0));
        }
    }
}
