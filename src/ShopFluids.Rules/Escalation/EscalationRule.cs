using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Escalation;

/// <summary>
/// When a flag that nobody answered goes to the supervisor. Whoever reads the sump, moves fluid, ends work or gives it to somebody has answered.
/// </summary>
public static class EscalationRule
{
    /// <summary>For how many open shop days a warning may stay unseen. Common practice, no source.</summary>
    public const int WarningShopDays = 2;

    /// <summary>For how long an action may stay unanswered: a shift. Common practice, no source.</summary>
    public static readonly TimeSpan ActionWithin = TimeSpan.FromHours(8);

    /// <summary>Whether it is time.</summary>
    /// <param name="severity">Warning or action.</param>
    /// <param name="raisedAt">When it was raised, UTC.</param>
    /// <param name="answeredAt">When somebody last did something about its subject, UTC; null for never.</param>
    /// <param name="calendar">The shop's days; nobody is asked to answer on closed ones.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    public static bool IsDue(Verdict severity, DateTime raisedAt, DateTime? answeredAt, ShopCalendar calendar, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(calendar);
        return now >= raisedAt && !(answeredAt > raisedAt) && now >= At(severity, raisedAt, calendar);
    }

    // A warning: the start of the second open day that begins after it. An action: eight hours later, or eight hours into the next open day.
    private static DateTime At(Verdict severity, DateTime raisedAt, ShopCalendar calendar)
    {
        if (severity == Verdict.Action)
        {
            var at = raisedAt + ActionWithin;
            var day = calendar.ShopDayOf(at);
            return calendar.IsOpen(day) ? at : calendar.StartOf(OpenDays.OnOrAfter(day, calendar)) + ActionWithin;
        }

        var begun = calendar.ShopDayOf(raisedAt);
        for (var days = 0; days < WarningShopDays; days++)
        {
            begun = OpenDays.OnOrAfter(begun.AddDays(1), calendar);
        }

        return calendar.StartOf(begun);
    }
}
