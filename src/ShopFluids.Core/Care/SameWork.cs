using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;

namespace ShopFluids.Core.Care;

/// <summary>
/// Work on the whole sump that plan and flags both ask for in one visit is done once: skimming serves the plan and the oil that was found.
/// It is shown as one task and ends as one.
/// </summary>
internal static class SameWork
{
    /// <summary>One key for tasks that are the same work; a test or an adjustment is never the same as another.</summary>
    public static object KeyOf(Guid taskId, TaskKind kind, SumpVisits visits) =>
        CorrectiveWork.OneIsEnough(kind) && visits.DayOf(taskId) is { } day ? (kind, day) : taskId;

    /// <summary>A task and what else is open as the same work, the task first.</summary>
    public static async Task<List<CareTask>> OpenAsync(ShopFluidsDbContext db, ShopSetup setup, CareTask task, DateTime now, CancellationToken cancellationToken)
    {
        var open = await db.CareTasks.Where(t => t.SumpId == task.SumpId && t.State == TaskState.Open).ToListAsync(cancellationToken);
        var visits = SumpVisits.Of(setup, task.SumpId, open.Select(t => t.ToOpen()), now);
        var key = KeyOf(task.Id, task.Kind, visits);
        return [task, .. open.Where(t => t.Id != task.Id && KeyOf(t.Id, t.Kind, visits).Equals(key)).OrderBy(t => t.DueAtUtc).ThenBy(t => t.Id)];
    }
}
