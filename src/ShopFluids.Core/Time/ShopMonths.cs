using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Time;

/// <summary>Months are those of shop days: a night shift belongs to the month in which it began.</summary>
internal static class ShopMonths
{
    /// <summary>The first day of the month that an instant belongs to.</summary>
    public static DateOnly MonthOf(this ShopCalendar calendar, DateTime atUtc)
    {
        var day = calendar.ShopDayOf(atUtc);
        return new(day.Year, day.Month, 1);
    }
}
