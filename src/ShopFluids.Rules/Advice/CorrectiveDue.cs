using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Advice;

/// <summary>When corrective work becomes late.</summary>
public static class CorrectiveDue
{
    /// <summary>How soon an action is due: half a shift. Common practice, no source.</summary>
    public static readonly TimeSpan ActionWithin = TimeSpan.FromHours(4);

    /// <summary>
    /// An action: four hours from now, or four hours into the next open shop day when the shop is closed by then. A warning: the end of
    /// today, or of the next open shop day when today is closed.
    /// </summary>
    /// <param name="severity">Warning or action.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    /// <param name="calendar">The shop's days.</param>
    public static DateTime For(Verdict severity, DateTime now, ShopCalendar calendar)
    {
        if (severity != Verdict.Action)
        {
            return calendar.EndOf(OpenDays.OnOrAfter(calendar.ShopDayOf(now), calendar));
        }

        var due = now + ActionWithin;
        var day = calendar.ShopDayOf(due);
        return calendar.IsOpen(day) ? due : calendar.StartOf(OpenDays.OnOrAfter(day, calendar)) + ActionWithin;
    }

    /// <summary>What need not be done at once: the end of the shop day on which its time runs out, or of the next open one.</summary>
    /// <param name="within">The time that there is.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    /// <param name="calendar">The shop's days.</param>
    public static DateTime Within(TimeSpan within, DateTime now, ShopCalendar calendar) =>
        calendar.EndOf(OpenDays.OnOrAfter(calendar.ShopDayOf(now + within), calendar));
}
