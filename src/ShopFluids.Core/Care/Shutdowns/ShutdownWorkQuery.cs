using Microsoft.EntityFrameworkCore;
using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Core.Care.Shutdowns;

/// <summary>What was planned for one sump because it stands, the earliest first.</summary>
public sealed record SumpShutdownWork(string SumpTag, IReadOnlyList<PlannedShutdownTask> Tasks);

/// <param name="DueDay">As on the board: of what is one piece of work, the earliest.</param>
/// <param name="IsAlsoOfPlan">A task of the care plan or of a flag does it as well: it is one piece of work.</param>
public sealed record PlannedShutdownTask(Guid TaskId, ShutdownPhase Phase, TaskKind Kind, string Cause, DateOnly DueDay, TaskState State, TopUpRecipe? Recipe, bool IsAlsoOfPlan);

/// <summary>The work of the shutdowns that are planned or stand, sump by sump in walking order.</summary>
public sealed class ShutdownWorkQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <summary>By the shutdown's id; one that is over or withdrawn has none.</summary>
    public async Task<ILookup<Guid, SumpShutdownWork>> RunAsync(CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var today = setup.Calendar.ShopDayOf(clock.UtcNow);
        var causes = setup.Shutdowns.Where(s => s.StateOn(today) is ShutdownState.Planned or ShutdownState.Standing).SelectMany(s => ShutdownWork.CausesOf(s.Id)).ToList();
        var asked = causes.Count == 0
            ? []
            : await db.CareTasks.AsNoTracking().Where(t => causes.Contains(t.Cause) && t.State != TaskState.Withdrawn).ToListAsync(cancellationToken);
        var standing = asked.Select(t => t.SumpId).ToHashSet();
        var open = standing.Count == 0
            ? []
            : await db.CareTasks.AsNoTracking().Where(t => t.State == TaskState.Open).ToListAsync(cancellationToken);
        var served = open.Where(t => standing.Contains(t.SumpId)).GroupBy(t => t.SumpId)
            .SelectMany(ofSump => ServedOf(setup, ofSump.Key, [.. ofSump], clock.UtcNow)).ToDictionary(s => s.TaskId, s => s.DueAtUtc);
        var bySump = asked.ToLookup(t => t.SumpId);
        return setup.Sumps.Where(s => standing.Contains(s.Id))
            .SelectMany(sump => bySump[sump.Id].GroupBy(t => ShutdownWork.ShutdownOf(t.Cause) ?? Guid.Empty)
                .Select(ofOne => (ofOne.Key, Work: new SumpShutdownWork(sump.Tag, [.. ofOne.OrderBy(t => t.DueAtUtc).ThenBy(t => t.Kind).ThenBy(t => t.Id).Select(t => TaskOf(setup, t, served))]))))
            .ToLookup(w => w.Key, w => w.Work);
    }

    // What is done together with work of the plan or of a flag, and by when.
    private static IEnumerable<(Guid TaskId, DateTime DueAtUtc)> ServedOf(ShopSetup setup, Guid sumpId, IReadOnlyList<CareTask> open, DateTime now)
    {
        var visits = SumpVisits.Of(setup, sumpId, open.Select(t => t.ToOpen()), now);
        return open.GroupBy(t => SameWork.KeyOf(t.Id, t.Kind, visits)).Where(same => same.Any(t => !ShutdownWork.IsCause(t.Cause))).SelectMany(same => same.Select(t => (t.Id, same.Min(s => s.DueAtUtc))));
    }

    private static PlannedShutdownTask TaskOf(ShopSetup setup, CareTask task, Dictionary<Guid, DateTime> served) => new(
        task.Id,
        ShutdownWork.PhaseOf(task.Cause) ?? ShutdownPhase.Before,
        task.Kind,
        task.Cause,
        CareSchedule.DueDayOf(served.GetValueOrDefault(task.Id, task.DueAtUtc), setup.CalendarFor(task.SumpId)),
        task.State,
        task.Recipe,
        served.ContainsKey(task.Id));
}
