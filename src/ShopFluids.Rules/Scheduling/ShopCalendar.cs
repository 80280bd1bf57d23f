namespace ShopFluids.Rules.Scheduling;

/// <summary>The shop's days: when one begins, and which are closed.</summary>
/// <param name="Zone">The site's time zone.</param>
/// <param name="DayStartHour">The hour, 0 to 23, at which a shop day begins; a night shift's reading belongs to the day before.</param>
/// <param name="ClosedWeekdays">Weekdays on which the shop is closed.</param>
/// <param name="ClosedDays">Single days on which it is closed.</param>
public sealed record ShopCalendar(TimeZoneInfo Zone, int DayStartHour, IReadOnlySet<DayOfWeek> ClosedWeekdays, IReadOnlySet<DateOnly> ClosedDays)
{
    /// <summary>The shop day to which an instant belongs.</summary>
    /// <param name="instantUtc">An instant, UTC.</param>
    public DateOnly ShopDayOf(DateTime instantUtc) =>
        DateOnly.FromDateTime(TimeZoneInfo.ConvertTimeFromUtc(instantUtc, Zone).AddHours(-DayStartHour));

    /// <summary>
    /// The instant at which a shop day begins, UTC. In an hour that a clock change skips it begins at the moment of the change, in an
    /// hour that comes twice with the first of them.
    /// </summary>
    /// <param name="day">The shop day.</param>
    public DateTime StartOf(DateOnly day)
    {
        var local = day.ToDateTime(new TimeOnly(DayStartHour, 0));
        while (Zone.IsInvalidTime(local))
        {
            local = local.AddMinutes(15);
        }

        return Zone.IsAmbiguousTime(local)
            ? DateTime.SpecifyKind(local - Zone.GetAmbiguousTimeOffsets(local).Max(), DateTimeKind.Utc)
            : TimeZoneInfo.ConvertTimeToUtc(local, Zone);
    }

    /// <summary>The instant at which a shop day ends: work due on that day is late from here on. UTC.</summary>
    /// <param name="day">The shop day.</param>
    public DateTime EndOf(DateOnly day) => StartOf(day.AddDays(1));

    /// <summary>Whether the shop works on a day.</summary>
    /// <param name="day">The shop day.</param>
    public bool IsOpen(DateOnly day) => !ClosedWeekdays.Contains(day.DayOfWeek) && !ClosedDays.Contains(day);
}
