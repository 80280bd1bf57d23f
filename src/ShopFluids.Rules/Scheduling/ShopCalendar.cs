namespace ShopFluids.Rules.Scheduling;

/// <summary>The shop's days: when one begins, and which are closed.</summary>
/// <param name="Zone">The site's time zone.</param>
/// <param name="DayStartHour">The hour, 0 to 23, at which a shop day begins; a night shift's reading belongs to the day before.</param>
/// <param name="ClosedWeekdays">Weekdays on which the shop is closed.</param>
/// <param name="ClosedDays">Single days on which it is closed.</param>
public sealed record ShopCalendar(TimeZoneInfo Zone, int DayStartHour, IReadOnlySet<DayOfWeek> ClosedWeekdays, IReadOnlySet<DateOnly> ClosedDays)
{
    /// <summary>When the shop's shifts end, clock times in their order within the shop day; empty where the shop names none.</summary>
    public IReadOnlyList<TimeOnly> ShiftEnds { get; init; } = [];

    /// <summary>The shop day to which an instant belongs.</summary>
    /// <param name="instantUtc">An instant, UTC.</param>
    public DateOnly ShopDayOf(DateTime instantUtc) =>
        DateOnly.FromDateTime(TimeZoneInfo.ConvertTimeFromUtc(instantUtc, Zone).AddHours(-DayStartHour));

    /// <summary>
    /// The instant at which a shop day begins, UTC. In an hour that a clock change skips it begins at the moment of the change, in an
    /// hour that comes twice with the first of them. So do the ends of shifts.
    /// </summary>
    /// <param name="day">The shop day.</param>
    public DateTime StartOf(DateOnly day) => InstantOf(day.ToDateTime(new TimeOnly(DayStartHour, 0)));

    /// <summary>The instant at which a shop day ends: work due on that day is late from here on. UTC.</summary>
    /// <param name="day">The shop day.</param>
    public DateTime EndOf(DateOnly day) => StartOf(day.AddDays(1));

    /// <summary>The instant at which a shift of a shop day ends, UTC; the end of the day for a shift that the shop does not have.</summary>
    /// <param name="day">The shop day.</param>
    /// <param name="shift">1 for the day's first shift; 0 for the whole day.</param>
    public DateTime EndOfShift(DateOnly day, int shift)
    {
        if (shift < 1 || shift > ShiftEnds.Count)
        {
            return EndOf(day);
        }

        var end = ShiftEnds[shift - 1];
        var instant = InstantOf((end > new TimeOnly(DayStartHour, 0) ? day : day.AddDays(1)).ToDateTime(end));
        return instant > StartOf(day) && instant < EndOf(day) ? instant : EndOf(day);
    }

    private DateTime InstantOf(DateTime local)
    {
        while (Zone.IsInvalidTime(local))
        {
            local = local.AddMinutes(15);
        }

        return Zone.IsAmbiguousTime(local)
            ? DateTime.SpecifyKind(local - Zone.GetAmbiguousTimeOffsets(local).Max(), DateTimeKind.Utc)
            : TimeZoneInfo.ConvertTimeToUtc(local, Zone);
    }

    /// <summary>Whether the shop works on a day.</summary>
    /// <param name="day">The shop day.</param>
    public bool IsOpen(DateOnly day) => !ClosedWeekdays.Contains(day.DayOfWeek) && !ClosedDays.Contains(day);
}
