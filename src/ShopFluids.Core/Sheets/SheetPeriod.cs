using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Sheets;

/// <summary>The period ends before it begins, or is longer than a sheet takes.</summary>
public sealed record PeriodNotValid(DateOnly From, DateOnly To, int MostDays) : Error;

/// <summary>The shop days that a sheet is about, both whole.</summary>
public sealed record SheetPeriod(DateOnly From, DateOnly To)
{
    /// <summary>Longer than any fluid lasts; keeps a slip of the year from printing a book.</summary>
    public const int MostDays = 3660;

    /// <summary>Why no sheet takes it; null when one does.</summary>
    public PeriodNotValid? Fault => From > To || To.DayNumber - From.DayNumber > MostDays ? new(From, To, MostDays) : null;

    /// <summary>A sheet about the whole shop begins with the year when no day is named.</summary>
    public static SheetPeriod OfYear(DateOnly? from, DateOnly? to, DateOnly today)
    {
        var last = to ?? today;
        return new(from ?? new DateOnly(last.Year, 1, 1), last);
    }

    public DateTime FromUtc(ShopCalendar calendar)
    {
        ArgumentNullException.ThrowIfNull(calendar);
        return calendar.StartOf(From);
    }

    /// <summary>The first instant after it.</summary>
    public DateTime ToUtc(ShopCalendar calendar)
    {
        ArgumentNullException.ThrowIfNull(calendar);
        return calendar.EndOf(To);
    }

    /// <summary>31 Aug to 25 Nov 2026.</summary>
    public string Words(ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return format.Say(Texts.Time_FromTo, From.Year == To.Year ? format.ShortDay(From) : format.LongDay(From), format.LongDay(To));
    }
}
