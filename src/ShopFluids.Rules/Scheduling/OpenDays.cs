namespace ShopFluids.Rules.Scheduling;

/// <summary>Steps from a day to the nearest open shop day.</summary>
public static class OpenDays
{
    // A calendar without an open day in a year has no open days: the day itself then stands.
    private const int SearchDays = 366;

    /// <summary>The day itself when open, otherwise the next open day.</summary>
    public static DateOnly OnOrAfter(DateOnly day, ShopCalendar calendar) => Nearest(day, 1, calendar);

    /// <summary>The day itself when open, otherwise the last open day before it.</summary>
    public static DateOnly OnOrBefore(DateOnly day, ShopCalendar calendar) => Nearest(day, -1, calendar);

    /// <summary>How many open shop days have begun from one moment to another, both included.</summary>
    /// <param name="from">The earlier moment, UTC.</param>
    /// <param name="to">The later moment, UTC.</param>
    /// <param name="calendar">The shop's days.</param>
    public static int CountBegun(DateTime from, DateTime to, ShopCalendar calendar)
    {
        var first = calendar.ShopDayOf(from);
        first = calendar.StartOf(first) < from ? first.AddDays(1) : first;
        var days = calendar.ShopDayOf(to).DayNumber - first.DayNumber + 1;
        return Enumerable.Range(0, Math.Max(0, days)).Count(day => calendar.IsOpen(first.AddDays(day)));
    }

    private static DateOnly Nearest(DateOnly day, int step, ShopCalendar calendar)
    {
        for (var days = 0; days <= SearchDays; days++)
        {
            var candidate = day.AddDays(days * step);
            if (calendar.IsOpen(candidate))
            {
                return candidate;
            }
        }

        return day;
    }
}
