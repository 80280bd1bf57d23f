using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Board;

/// <summary>The open flags and the open work of one sump.</summary>
public sealed record OpenWork(IReadOnlyList<BoardFlag> Flags, IReadOnlyList<BoardTask> Tasks);

public sealed class OpenWorkQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    private readonly BoardPeopleQuery _people = new();

    public async Task<OpenWork> RunAsync(Guid sumpId, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var people = await _people.RunAsync(db, cancellationToken);
        var flags = await db.Flags.AsNoTracking().Where(f => f.SumpId == sumpId && f.EndedAtUtc == null).ToListAsync(cancellationToken);
        var tasks = await db.CareTasks.AsNoTracking().Where(t => t.SumpId == sumpId && t.State == TaskState.Open).ToListAsync(cancellationToken);
        var facts = (await db.Standings.AsNoTracking().FirstOrDefaultAsync(s => s.SumpId == sumpId, cancellationToken))?.Facts;
        var answers = await FlagAnswers.OfAsync(db, flags.Where(f => f.EscalatedAtUtc is not null), cancellationToken);
        return new(Flags(flags, facts, answers.LastOn(sumpId)), Tasks(tasks, people.ById, setup, sumpId, clock.UtcNow));
    }

    /// <summary>The worst first, then in the order they were raised.</summary>
    /// <param name="flags">The sump's open flags.</param>
    /// <param name="facts">Where it stands.</param>
    /// <param name="answeredAt">When somebody last did something about the sump: what went to the supervisor before that is answered.</param>
    internal static List<BoardFlag> Flags(IEnumerable<Flag> flags, StandingFacts? facts, DateTime? answeredAt) =>
        [.. flags.OrderByDescending(f => f.Severity).ThenBy(f => f.RaisedAtUtc).ThenBy(f => f.Rule, StringComparer.Ordinal).ThenBy(f => f.Parameter, StringComparer.Ordinal)
            .Select(f => new BoardFlag(f.Id, f.Rule, f.Parameter, f.Severity, f.Direction, f.Numbers, f.RaisedAtUtc) { Latest = LatestOf(f, facts), EscalatedAtUtc = answeredAt > f.EscalatedAtUtc ? null : f.EscalatedAtUtc })];

    private static decimal? LatestOf(Flag flag, StandingFacts? facts) =>
        flag.Numbers.TryGetValue(NumberNames.Value, out var raisedWith) && facts?.Latest.TryGetValue(flag.Parameter, out var latest) == true && latest.Value != raisedWith ? latest.Value : null;

    /// <summary>The earliest first; what plan and flags both ask for in one visit is one piece of work.</summary>
    internal static List<BoardTask> Tasks(IReadOnlyCollection<CareTask> tasks, IReadOnlyDictionary<Guid, BoardPerson> people, ShopSetup setup, Guid sumpId, DateTime nowUtc)
    {
        var visits = SumpVisits.Of(setup, sumpId, tasks.Select(t => t.ToOpen()), nowUtc);
        var minutes = setup.StepsOf(sumpId).ToDictionary(s => s.Id, s => s.EstimatedMinutes);

        // What a flag asks for takes as long as what the plan asks for of the same kind.
        var ofKind = setup.StepsOf(sumpId).ToLookup(s => s.Kind, s => s.EstimatedMinutes);
        var firstDraining = tasks.Where(t => t.Kind == TaskKind.DrainClean).OrderBy(t => t.DueAtUtc).ThenBy(t => t.Cause, StringComparer.Ordinal).FirstOrDefault();
        return [.. tasks.GroupBy(t => SameWork.KeyOf(t.Id, t.Kind, visits))
            .Select(same => One([.. same.OrderBy(t => SameWork.RankOf(t.Kind, t.Cause)).ThenBy(t => t.DueAtUtc).ThenBy(t => t.Cause, StringComparer.Ordinal)], people, setup.Calendar, nowUtc) with
            {
                VisitsOn = visits.DayOf(same.First().Id),
                GoesWithDraining = same.All(t => t.Kind == TaskKind.DrainClean && t != firstDraining && DoneWork.ByDrain(setup, t, nowUtc)),
                Minutes = same.Select(t => t.StepId is { } id ? minutes.GetValueOrDefault(id) : ofKind[t.Kind].DefaultIfEmpty().Max()).Max(),
            })
            .OrderBy(t => t.DueAtUtc).ThenBy(t => t.Kind).ThenBy(t => t.Cause, StringComparer.Ordinal)];
    }

    // The flag's task stands for the plan's, because it says why; late is what was to be done first.
    private static BoardTask One(List<CareTask> same, IReadOnlyDictionary<Guid, BoardPerson> people, ShopCalendar calendar, DateTime nowUtc)
    {
        var (first, due) = (same[0], same.Min(t => t.DueAtUtc));
        return new(
            first.Id,
            first.Kind,
            first.Cause,
            due,
            CareSchedule.DueDayOf(due, calendar),
            due <= nowUtc,
            CareSchedule.IsPlanned(first.Cause),
            first.Recipe,
            same.Select(t => t.AssignedToId is { } id ? people.GetValueOrDefault(id) : null).FirstOrDefault(p => p is not null))
        {
            AskedAtUtc = first.CreatedAtUtc,
            Why = first.Why,
            IsAlsoOfPlan = !CareSchedule.IsPlanned(first.Cause) && same.Exists(t => CareSchedule.IsPlanned(t.Cause)),
        };
    }
}
