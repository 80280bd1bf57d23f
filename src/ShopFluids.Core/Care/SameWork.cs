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
}
