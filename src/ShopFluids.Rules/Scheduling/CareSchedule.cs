using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Rules.Scheduling;

/// <summary>
/// When a step of a care plan is due. Days are shop days, so a change of the clock never moves one; the shift for a closed day moves
/// only the day shown, never the series behind it.
/// </summary>
public static class CareSchedule
{
    private const string CausePrefix = "step:";
    private const int HalfAMonthDays = 15;

    /// <summary>The cause that the tasks of a step carry.</summary>
    public static string CauseOf(Guid stepId) => $"{CausePrefix}{stepId}";

    /// <summary>Whether a cause is that of a step.</summary>
    public static bool IsCauseOfStep(string cause) => cause.StartsWith(CausePrefix, StringComparison.Ordinal);

    /// <summary>Whether a cause is that of planned work, of a step or of a shutdown, and not of a flag.</summary>
    public static bool IsPlanned(string cause) => IsCauseOfStep(cause) || ShutdownWork.IsCause(cause);

    /// <summary>
    /// The next due day. Anchored: the first anchor + k intervals, k from 0, that lies after the last done day, and whose shown day lies after it
    /// too and on or after <paramref name="notBefore"/>. Every other basis from last done: that day + interval, or the anchor before it was ever done, not
    /// before <paramref name="notBefore"/>.
    /// </summary>
    /// <param name="step">The step.</param>
    /// <param name="lastDone">The shop day on which it was last done; null when never.</param>
    /// <param name="notBefore">The earliest day wanted. After an item done early: the day after that item, so that it is not planned twice.</param>
    /// <param name="calendar">The shop's days.</param>
    /// <exception cref="ArgumentOutOfRangeException">The interval is below one day.</exception>
    public static DateOnly NextDueDay(CareStepFacts step, DateOnly? lastDone, DateOnly notBefore, ShopCalendar calendar)
    {
        if (step.IntervalDays < 1 && step.IntervalMonths < 1)
        {
            throw new ArgumentOutOfRangeException(nameof(step), step.IntervalDays, "An interval has one day or more.");
        }

        if (!step.Recurs)
        {
            throw new ArgumentOutOfRangeException(nameof(step), step.Basis, "A step after an event has no next day by itself.");
        }

        return step.Basis == IntervalBasis.CalendarAnchored
            ? Anchored(step, lastDone, notBefore, calendar)
            : FromLastDone(step, lastDone, notBefore, calendar);
    }

    /// <summary>The moment from which work due on a day is late, UTC: the end of that shop day, or of one of its shifts.</summary>
    /// <param name="day">The due day.</param>
    /// <param name="calendar">The shop's days.</param>
    /// <param name="shift">1 for the day's first shift; 0 for the whole day.</param>
    public static DateTime DueAt(DateOnly day, ShopCalendar calendar, int shift = 0) => calendar.EndOfShift(day, shift);

    /// <summary>The due day behind a moment made by <see cref="DueAt"/>.</summary>
    /// <param name="dueAt">The moment, UTC.</param>
    /// <param name="calendar">The shop's days.</param>
    public static DateOnly DueDayOf(DateTime dueAt, ShopCalendar calendar) => calendar.ShopDayOf(dueAt.AddTicks(-1));

    /// <summary>The first task of a step, or the task that a step should have when it has none.</summary>
    /// <param name="step">The step.</param>
    /// <param name="lastDone">The shop day on which it was last done, where known.</param>
    /// <param name="now">The moment of planning, UTC; nothing is planned into the past.</param>
    /// <param name="calendar">The shop's days.</param>
    public static ProposedTask First(CareStepFacts step, DateOnly? lastDone, DateTime now, ShopCalendar calendar) =>
        Task(step, NextDueDay(step, lastDone, calendar.ShopDayOf(now), calendar), calendar);

    /// <summary>The task after one that was done, early or late.</summary>
    /// <param name="step">The step.</param>
    /// <param name="done">The task done.</param>
    /// <param name="doneAt">When the work was done, UTC.</param>
    /// <param name="calendar">The shop's days.</param>
    public static ProposedTask After(CareStepFacts step, OpenTask done, DateTime doneAt, ShopCalendar calendar)
    {
        var day = calendar.ShopDayOf(doneAt);
        var notBefore = step.Basis == IntervalBasis.CalendarAnchored ? DueDayOf(done.DueAt, calendar).AddDays(1) : day.AddDays(1);
        return Task(step, NextDueDay(step, day, notBefore, calendar), calendar);
    }

    /// <summary>The task of a step after an event: so many days after the event's day, never in the past and never before the event.</summary>
    /// <param name="step">The step.</param>
    /// <param name="eventDay">The shop day of the event.</param>
    /// <param name="now">The moment of planning, UTC.</param>
    /// <param name="calendar">The shop's days.</param>
    public static ProposedTask AfterEvent(CareStepFacts step, DateOnly eventDay, DateTime now, ShopCalendar calendar)
    {
        var (wanted, today) = (step.Later(eventDay), calendar.ShopDayOf(now));
        wanted = wanted < today ? today : wanted;
        var shown = Shown(wanted, step.ClosedDays, calendar);
        return Task(step, shown < today || shown <= eventDay ? OpenDays.OnOrAfter(wanted, calendar) : shown, calendar);
    }

    /// <summary>
    /// Whether work done at a moment counts for a task: not before the interval that ends with it has begun. Without this, a shop that
    /// tests daily would push a weekly test a week further out with every reading.
    /// </summary>
    /// <param name="step">The step.</param>
    /// <param name="open">Its open task.</param>
    /// <param name="doneAt">When the work was done, UTC.</param>
    /// <param name="calendar">The shop's days.</param>
    public static bool CountsFor(CareStepFacts step, OpenTask open, DateTime doneAt, ShopCalendar calendar) =>
        calendar.ShopDayOf(doneAt) >= FirstDayThatCounts(step, DueDayOf(open.DueAt, calendar), calendar);

    /// <summary>The first shop day on which work counts for a task that is due on a day; see <see cref="CountsFor"/>.</summary>
    /// <param name="step">The step.</param>
    /// <param name="dueDay">The due day of its open task.</param>
    /// <param name="calendar">The shop's days.</param>
    public static DateOnly FirstDayThatCounts(CareStepFacts step, DateOnly dueDay, ShopCalendar calendar) => BeginOf(step, dueDay, calendar).AddDays(1);

    // What is due after an event is asked on a day of its own: the day before still serves. In a series of months the one before may have
    // fallen on a later day of its month: half a month covers that and every shift for closed days.
    private static DateOnly BeginOf(CareStepFacts step, DateOnly due, ShopCalendar calendar)
    {
        if (!step.Recurs)
        {
            return due.AddDays(-Math.Min(2, step.IntervalDays));
        }

        // Every reading tells more of the risk: since the test before, it counts, and the next is planned from it.
        if (step.Risk is { } risk)
        {
            return due.AddDays(-risk.CeilingDays);
        }

        var begin = step.Later(due, -1);
        if (step.IntervalMonths == 0)
        {
            return begin;
        }

        if (step.Basis != IntervalBasis.CalendarAnchored)
        {
            return LastThatLeadsTo(LatestBehind(due, step.ClosedDays, calendar), step);
        }

        var next = IntervalsUntil(step, begin.AddDays(HalfAMonthDays + 1));
        var before = step.Later(step.Anchor, next - 1);
        return next > 0 && before > begin ? before : begin;
    }

    // The latest day whose work is shown due on a day: closed days after it may have been moved to it.
    private static DateOnly LatestBehind(DateOnly due, ClosedDayPolicy policy, ShopCalendar calendar) =>
        policy == ClosedDayPolicy.Earlier && calendar.IsOpen(due) ? OpenDays.OnOrAfter(due.AddDays(1), calendar).AddDays(-1) : due;

    // 28 February is a month after 28, 29, 30 and 31 January: nobody knows after which, so the last of them.
    private static DateOnly LastThatLeadsTo(DateOnly due, CareStepFacts step)
    {
        var day = step.Later(due, -1);
        while (step.Later(day.AddDays(1)) <= due)
        {
            day = day.AddDays(1);
        }

        return day;
    }

    private static ProposedTask Task(CareStepFacts step, DateOnly day, ShopCalendar calendar) =>
        new(step.Kind, CauseOf(step.Id), step.Id, DueAt(day, calendar, step.Shift), FromRecipe: false);

    private static DateOnly Anchored(CareStepFacts step, DateOnly? lastDone, DateOnly notBefore, ShopCalendar calendar)
    {
        var earliest = EarliestShownFrom(step.ClosedDays, notBefore, calendar);
        if (lastDone is { } done && done >= earliest)
        {
            earliest = done.AddDays(1);
        }

        // Always counted from the anchor: a series on the 31st does not drift to the 28th over a February.
        var intervals = IntervalsUntil(step, earliest);
        var shown = Shown(step.Later(step.Anchor, intervals), step.ClosedDays, calendar);
        while (shown < notBefore || shown <= lastDone)
        {
            intervals++;
            shown = Shown(step.Later(step.Anchor, intervals), step.ClosedDays, calendar);
        }

        return shown;
    }

    // The number of intervals from the anchor to the first day of the series on or after a day.
    private static int IntervalsUntil(CareStepFacts step, DateOnly day)
    {
        if (day <= step.Anchor)
        {
            return 0;
        }

        if (step.IntervalMonths == 0)
        {
            return ((day.DayNumber - step.Anchor.DayNumber - 1) / step.IntervalDays) + 1;
        }

        var intervals = (((day.Year - step.Anchor.Year) * 12) + day.Month - step.Anchor.Month) / step.IntervalMonths;
        return step.Later(step.Anchor, intervals) < day ? intervals + 1 : intervals;
    }

    // The first day of a series that can be shown on or after a day: with "later", a closed day just before it can.
    private static DateOnly EarliestShownFrom(ClosedDayPolicy policy, DateOnly day, ShopCalendar calendar) =>
        policy == ClosedDayPolicy.Later ? OpenDays.OnOrBefore(day.AddDays(-1), calendar).AddDays(1) : day;

    private static DateOnly FromLastDone(CareStepFacts step, DateOnly? lastDone, DateOnly notBefore, ShopCalendar calendar)
    {
        var wanted = lastDone is { } done ? step.Later(done) : step.Anchor;
        wanted = wanted < notBefore ? notBefore : wanted;
        var shown = Shown(wanted, step.ClosedDays, calendar);

        // Moving it earlier must not bring it back to a day already done, or before the earliest day wanted.
        return shown < notBefore || shown <= lastDone ? OpenDays.OnOrAfter(wanted, calendar) : shown;
    }

    /// <summary>A due day as it is shown: moved by the policy when the shop is closed on it.</summary>
    /// <param name="day">The day.</param>
    /// <param name="policy">What happens on a closed day.</param>
    /// <param name="calendar">The sump's days.</param>
    public static DateOnly Shown(DateOnly day, ClosedDayPolicy policy, ShopCalendar calendar) => policy switch
    {
        ClosedDayPolicy.Earlier => OpenDays.OnOrBefore(day, calendar),
        ClosedDayPolicy.Later => OpenDays.OnOrAfter(day, calendar),
        ClosedDayPolicy.AsIs => day,
        _ => throw new ArgumentOutOfRangeException(nameof(policy), policy, "Not a policy for closed days."),
    };
}
