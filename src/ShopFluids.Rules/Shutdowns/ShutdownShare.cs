using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Shutdowns;

/// <summary>Whether open work of the plan or of a flag is what a shutdown asks for as well: then it is done once.</summary>
public static class ShutdownShare
{
    /// <summary>How many days the two may lie apart: a week-end does not divide them. Common practice, no source.</summary>
    public const int NearDays = 3;

    /// <summary>
    /// The same kind of work, due at most <see cref="NearDays"/> apart (what is late, now), and of a step only where the shutdown's day counts for its interval. A test of
    /// the plan must measure what the shutdown's does, and what a flag wants measured again stays a test of its own. The test before the first cut is
    /// never one with a test that is due before it.
    /// </summary>
    /// <param name="task">Open work.</param>
    /// <param name="step">The step of the care plan behind it; null where a flag asked for it.</param>
    /// <param name="ofShutdown">Other open work of the same sump.</param>
    /// <param name="calendar">The sump's days.</param>
    /// <param name="today">The shop day.</param>
    public static bool IsOneWith(OpenTask task, CareStepFacts? step, OpenTask ofShutdown, ShopCalendar calendar, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(task);
        ArgumentNullException.ThrowIfNull(ofShutdown);
        ArgumentNullException.ThrowIfNull(calendar);
        if (task.Kind != ofShutdown.Kind || ShutdownWork.IsCause(task.Cause) || !ShutdownWork.IsCause(ofShutdown.Cause))
        {
            return false;
        }

        var (due, wanted) = (CareSchedule.DueDayOf(task.DueAt, calendar), CareSchedule.DueDayOf(ofShutdown.DueAt, calendar));
        var (done, asked) = (due < today ? today : due, wanted < today ? today : wanted);
        return Math.Abs(done.DayNumber - asked.DayNumber) <= NearDays
            && (done >= asked || !ShutdownWork.IsAfter(ofShutdown.Cause))
            && (task.Kind != TaskKind.Test || (step is not null && MeasuresEnough(step)))
            && (step is null || asked >= CareSchedule.FirstDayThatCounts(step, due, calendar));
    }

    private static bool MeasuresEnough(CareStepFacts step) =>
        step.Parameters.Contains(ParameterCodes.Concentration, StringComparer.Ordinal) && step.Parameters.Contains(ParameterCodes.Ph, StringComparer.Ordinal);
}
