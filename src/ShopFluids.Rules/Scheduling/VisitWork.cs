using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Rules.Scheduling;

/// <summary>The shop days on which an open task can be done: from the first on which it makes sense to the last on which it is in time.</summary>
/// <param name="TaskId">The task.</param>
/// <param name="EarliestDay">Not after <paramref name="LatestDay"/>; may lie in the past.</param>
/// <param name="LatestDay">The due day as the step's policy shows it; of late work the first open day from today on.</param>
public sealed record VisitWork(Guid TaskId, DateOnly EarliestDay, DateOnly LatestDay)
{
    /// <summary>
    /// The days of a task. Work is brought forward by so many open shop days, and by no more than its interval allows: not to a day on which it would
    /// count for the time before. Draining takes the machine, a dose has its day by the label, a slide its hours, and the work of a shutdown its place
    /// before, in or after it: these keep their day. So does work to which somebody gave its day.
    /// </summary>
    /// <param name="task">The open task.</param>
    /// <param name="step">The step of the care plan behind it; null where a flag or a shutdown asked for it.</param>
    /// <param name="windowShopDays">How many open shop days ahead is near, 0 or more.</param>
    /// <param name="calendar">The sump's days.</param>
    /// <param name="today">The shop day of now.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="windowShopDays"/> is below 0.</exception>
    public static VisitWork Of(OpenTask task, CareStepFacts? step, int windowShopDays, ShopCalendar calendar, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(task);
        ArgumentNullException.ThrowIfNull(calendar);
        ArgumentOutOfRangeException.ThrowIfNegative(windowShopDays);
        var due = CareSchedule.DueDayOf(task.DueAt, calendar);
        var latest = LatestOf(due, PolicyOf(task, step), calendar, today);
        if (KeepsItsDay(task))
        {
            return new(task.Id, latest, latest);
        }

        var near = latest;
        for (var days = 0; days < windowShopDays; days++)
        {
            near = OpenDays.OnOrBefore(near.AddDays(-1), calendar);
        }

        var counts = step is null ? near : CareSchedule.FirstDayThatCounts(step, due, calendar);
        var earliest = counts > near ? counts : near;
        return new(task.Id, earliest < latest ? earliest : latest, latest);
    }

    private static bool KeepsItsDay(OpenTask task) => task.IsDayChosen || task.Kind is TaskKind.DrainClean or TaskKind.Dose or TaskKind.ReadSlide || ShutdownWork.IsCause(task.Cause);

    // Its day was chosen when it was made; closed days that came later move it by the same policy. A standing machine is circulated on closed days too.
    private static ClosedDayPolicy PolicyOf(OpenTask task, CareStepFacts? step) =>
        step?.ClosedDays ?? (task.Kind == TaskKind.ReadSlide || ShutdownWork.IsCause(task.Cause) ? ClosedDayPolicy.AsIs : ClosedDayPolicy.Earlier);

    private static DateOnly LatestOf(DateOnly due, ClosedDayPolicy policy, ShopCalendar calendar, DateOnly today)
    {
        var shown = CareSchedule.Shown(due, policy, calendar);
        return shown < today ? OpenDays.OnOrAfter(today, calendar) : shown;
    }
}
