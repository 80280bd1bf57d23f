using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Core.Care;

/// <summary>
/// Work on the whole sump that plan and flags both ask for in one visit is done once: skimming serves the plan and the oil that was found.
/// So is what a shutdown asks for when the plan or a flag asks for it about the same day. It is shown as one task and ends as one.
/// </summary>
internal static class SameWork
{
    /// <summary>One key for tasks that are the same work; a test or an adjustment is never the same as another, but may serve a shutdown.</summary>
    public static object KeyOf(Guid taskId, TaskKind kind, SumpVisits visits)
    {
        var served = visits.ServedBy(taskId) ?? taskId;
        return CorrectiveWork.OneIsEnough(kind) && visits.DayOf(served) is { } day ? (kind, day) : served;
    }

    /// <summary>
    /// Which of the causes of the same work speaks for it, the lowest first: a flag says why, a shutdown when, the plan neither. Of tests the plan's
    /// speaks before the shutdown's: it measures more.
    /// </summary>
    public static int RankOf(TaskKind kind, string cause) =>
        CareSchedule.IsCauseOfStep(cause) ? 2
        : !ShutdownWork.IsCause(cause) ? 0
        : kind == TaskKind.Test ? 3 : 1;

    /// <summary>A task and what else is open as the same work, the task first.</summary>
    public static async Task<List<CareTask>> OpenAsync(ShopFluidsDbContext db, ShopSetup setup, CareTask task, DateTime now, CancellationToken cancellationToken)
    {
        var open = await db.CareTasks.Where(t => t.SumpId == task.SumpId && t.State == TaskState.Open).ToListAsync(cancellationToken);
        var visits = SumpVisits.Of(setup, task.SumpId, open.Select(t => t.ToOpen()), now);
        var key = KeyOf(task.Id, task.Kind, visits);
        return [task, .. open.Where(t => t.Id != task.Id && KeyOf(t.Id, t.Kind, visits).Equals(key)).OrderBy(t => t.DueAtUtc).ThenBy(t => t.Id)];
    }
}
