using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.OverdueTest;

namespace ShopFluids.Rules.Advice;

/// <summary>
/// What follows when a person ends work that was to bring a sump back within its limits. Only a reading ends a flag, so a flag that is
/// left with no work of its own asks for that reading: done or skipped, somebody has to look again.
/// </summary>
public static class RetestAdvice
{
    /// <summary>A test for each flag that the ended work was to answer and that no other open work answers; due like any work for a warning.</summary>
    /// <param name="ended">The kind of work that was done or skipped. Looking for a cause changes nothing of what was measured, and a filter only what the next chips bring: common practice, no source.</param>
    /// <param name="openFlags">Flags still open.</param>
    /// <param name="openTasks">Tasks still open, the ended one no longer among them.</param>
    /// <param name="calendar">The shop's days.</param>
    /// <param name="now">When the work was ended, UTC.</param>
    public static IReadOnlyList<ProposedTask> After(
        TaskKind ended, IReadOnlyList<OpenFlag> openFlags, IReadOnlyList<OpenTask> openTasks, Scheduling.ShopCalendar calendar, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(openFlags);
        ArgumentNullException.ThrowIfNull(openTasks);
        ArgumentNullException.ThrowIfNull(calendar);
        return ended is not (TaskKind.Adjust or TaskKind.DrainClean or TaskKind.Skim or TaskKind.Circulate)
            ? []
            : [.. openFlags
                .Where(f => f.Rule != OverdueTestRule.Code && KindsFor(f).Contains(ended) && !IsAnswered(f, openTasks))
                .OrderBy(f => f.Rule, StringComparer.Ordinal)
                .ThenBy(f => f.Parameter, StringComparer.Ordinal)
                .Select(f => new ProposedTask(TaskKind.Test, CauseOf(f), null, CorrectiveDue.For(Verdict.Warning, now, calendar), FromRecipe: false))];
    }

    // Work on the whole sump answers every flag that asks for it, whichever flag it was made for.
    private static bool IsAnswered(OpenFlag flag, IReadOnlyList<OpenTask> open) =>
        open.Any(t => t.Cause == CauseOf(flag)
            || (!Scheduling.CareSchedule.IsPlanned(t.Cause) && CorrectiveWork.IsOnWholeSump(t.Kind) && KindsFor(flag).Contains(t.Kind)));

    private static IReadOnlyList<TaskKind> KindsFor(OpenFlag flag) => CorrectiveWork.For(flag.Rule, flag.Parameter, flag.Direction, flag.Severity, isConfirmed: true);

    private static string CauseOf(OpenFlag flag) => CorrectiveWork.CauseOf(flag.Rule, flag.Parameter);
}
