using ShopFluids.Rules;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Care;

/// <summary>
/// Work on the whole sump that plan and flags both ask for on one day is done once: skimming serves the plan and the oil that was found.
/// It is shown as one task and ends as one. What is late falls on today.
/// </summary>
internal static class SameWork
{
    /// <summary>One key for tasks that are the same work; a test or an adjustment is never the same as another.</summary>
    public static object KeyOf(Guid taskId, TaskKind kind, DateTime dueAtUtc, ShopCalendar calendar, DateTime nowUtc)
    {
        if (!CorrectiveWork.OneIsEnough(kind))
        {
            return taskId;
        }

        var (day, today) = (CareSchedule.DueDayOf(dueAtUtc, calendar), calendar.ShopDayOf(nowUtc));
        return (kind, day < today ? today : day);
    }
}
