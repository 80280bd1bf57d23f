using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Scheduling;

/// <summary>How urgently a sump needs somebody, among those that stand alike.</summary>
/// <param name="HasActionFlag">A flag with an action is open.</param>
/// <param name="LateQuarters">
/// How late its latest work is, in quarters of that work's interval begun: 0 for not late, 1 for less than a quarter. A day late is a whole interval of a
/// daily test, and next to nothing of a yearly draining. In quarters, so that an hour does not decide between sumps; common practice, no source.
/// </param>
/// <param name="CostAtStake">What the concentrate in the sump costs, in the shop's currency; 0 where no price is known.</param>
/// <param name="WeeklyHours">Running hours a week of all machines that hang on the sump, h.</param>
public sealed record WorkPriority(bool HasActionFlag, int LateQuarters, decimal CostAtStake, decimal WeeklyHours)
{
    // A day, for work that has no interval because a flag or a shutdown asked for it: it is wanted at once. Common practice, no source.
    private const double DaysOfWorkAskedFor = 1;
    private const double MostQuarters = 100_000;

    /// <summary>Puts the most urgent first: action flags, then the most late by its interval, then the most cost at stake, then the most running hours.</summary>
    public static IComparer<WorkPriority> MostUrgentFirst { get; } = Comparer<WorkPriority>.Create(Compare);

    /// <summary>How late a task is, in quarters of its interval begun; see <see cref="LateQuarters"/>.</summary>
    /// <param name="dueAt">When it became late, UTC.</param>
    /// <param name="step">The step behind it; null where a flag or a shutdown asked for it.</param>
    /// <param name="now">The moment of looking, UTC.</param>
    public static int QuartersLate(DateTime dueAt, CareStepFacts? step, DateTime now)
    {
        var days = step is null ? DaysOfWorkAskedFor : step.UsualDays;
        return now < dueAt ? 0 : 1 + (int)Math.Min(MostQuarters, 4 * (now - dueAt).TotalDays / days);
    }

    private static int Compare(WorkPriority a, WorkPriority b)
    {
        var byFlag = b.HasActionFlag.CompareTo(a.HasActionFlag);
        var byLateness = byFlag != 0 ? byFlag : b.LateQuarters.CompareTo(a.LateQuarters);
        var byCost = byLateness != 0 ? byLateness : b.CostAtStake.CompareTo(a.CostAtStake);
        return byCost != 0 ? byCost : b.WeeklyHours.CompareTo(a.WeeklyHours);
    }
}
