namespace ShopFluids.Core.Wording;

public sealed partial class ShopFormat
{
    // From half a year on, a day without its year may be taken for the other one.
    private const int DaysWithoutYear = 180;

    public DateTime ToShopTime(DateTime instantUtc) => TimeZoneInfo.ConvertTimeFromUtc(instantUtc, Calendar.Zone);

    /// <summary>14:26.</summary>
    public string Time(DateTime instantUtc) => ToShopTime(instantUtc).ToString("HH:mm", Culture);

    /// <summary>19 Nov.</summary>
    public string ShortDay(DateTime instantUtc) => ShortDay(DateOnly.FromDateTime(ToShopTime(instantUtc)));

    /// <summary>19 Nov.</summary>
    public string ShortDay(DateOnly day) => day.ToString("d MMM", Culture);

    /// <summary>Fri 27 Nov.</summary>
    public string Weekday(DateOnly day) => day.ToString("ddd d MMM", Culture);

    /// <summary>Fri 27 Nov.</summary>
    public string Weekday(DateTime instantUtc) => Weekday(DateOnly.FromDateTime(ToShopTime(instantUtc)));

    /// <summary>25 Nov 2026.</summary>
    public string LongDay(DateOnly day) => day.ToString("d MMM yyyy", Culture);

    /// <summary>25 Nov 2026.</summary>
    public string LongDay(DateTime instantUtc) => LongDay(DateOnly.FromDateTime(ToShopTime(instantUtc)));

    /// <summary>25 Nov 2026, 14:26.</summary>
    public string DayAndTime(DateTime instantUtc) => $"{LongDay(instantUtc)}, {Time(instantUtc)}";

    /// <summary>today 14:26, then 19 Nov 14:26, then 19 Nov 2025.</summary>
    public string When(DateTime instantUtc, DateTime nowUtc)
    {
        var then = ToShopTime(instantUtc);
        var now = ToShopTime(nowUtc);
        return then.Date == now.Date ? Say(Texts.Time_TodayAt, Time(instantUtc))
            : then.Date == now.Date.AddDays(-1) ? Say(Texts.Time_YesterdayAt, Time(instantUtc))
            : Math.Abs((now - then).TotalDays) < DaysWithoutYear ? ShortDay(instantUtc)
            : LongDay(instantUtc);
    }

    /// <summary>today, 1 day ago, 6 days ago.</summary>
    public string Ago(DateTime instantUtc, DateTime nowUtc)
    {
        var days = (ToShopTime(nowUtc).Date - ToShopTime(instantUtc).Date).Days;
        return days switch
        {
            <= 0 => Texts.Time_Today,
            1 => Texts.Time_Yesterday,
            _ => Say(Texts.Time_DaysAgo, Count(days)),
        };
    }

    /// <summary>3 h late or 2 days late; null when not late.</summary>
    public string? Late(DateTime dueUtc, DateTime nowUtc)
    {
        var late = nowUtc - dueUtc;
        return late < TimeSpan.Zero ? null
            : late < TimeSpan.FromHours(1) ? Say(Texts.Time_MinutesLate, Count(Math.Max(1, (int)late.TotalMinutes)))
            : late < TimeSpan.FromHours(24) ? Say(Texts.Time_HoursLate, Count((int)late.TotalHours))
            : late < TimeSpan.FromHours(48) ? Texts.Time_OneDayLate
            : Say(Texts.Time_DaysLate, Count((int)late.TotalDays));
    }

    /// <summary>When work is due: late, today, tomorrow, Fri 27 Nov, 25 Nov 2027. A deadline at the end of a shop day belongs to that day.</summary>
    public string Due(DateTime dueUtc, DateTime nowUtc)
    {
        if (Late(dueUtc, nowUtc) is { } late)
        {
            return late;
        }

        var day = Calendar.ShopDayOf(dueUtc.AddMilliseconds(-1));
        var today = Calendar.ShopDayOf(nowUtc);
        var word = day <= today ? Texts.Time_Today
            : day == today.AddDays(1) ? Texts.Time_Tomorrow
            : day.DayNumber - today.DayNumber < DaysWithoutYear ? Weekday(day)
            : LongDay(day);
        return EndsAShift(day, dueUtc) ? Say(Texts.Time_By, word, Time(dueUtc)) : word;
    }

    // The end of the day itself needs no clock time.
    private bool EndsAShift(DateOnly day, DateTime instantUtc) =>
        instantUtc < Calendar.EndOf(day) && Enumerable.Range(1, Calendar.ShiftEnds.Count).Any(shift => Calendar.EndOfShift(day, shift) == instantUtc);
}
