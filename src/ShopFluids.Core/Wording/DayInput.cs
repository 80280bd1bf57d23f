using System.Globalization;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Wording;

/// <summary>Days and shop times as a browser's date box writes them, whatever language it shows them in.</summary>
public static class DayInput
{
    private const string DayPattern = "yyyy-MM-dd";
    private const string TimePattern = "yyyy-MM-ddTHH:mm";
    private static readonly string[] TimePatterns = [TimePattern, "yyyy-MM-ddTHH:mm:ss"];

    public static string Write(DateOnly day) => day.ToString(DayPattern, CultureInfo.InvariantCulture);

    public static bool TryRead(string? text, out DateOnly day) =>
        DateOnly.TryParseExact(text, DayPattern, CultureInfo.InvariantCulture, DateTimeStyles.None, out day);

    public static string WriteTime(DateTime instantUtc, ShopCalendar calendar)
    {
        ArgumentNullException.ThrowIfNull(calendar);
        return TimeZoneInfo.ConvertTimeFromUtc(instantUtc, calendar.Zone).ToString(TimePattern, CultureInfo.InvariantCulture);
    }

    /// <summary>False also for an hour that a clock change skips.</summary>
    public static bool TryReadTime(string? text, ShopCalendar calendar, out DateTime instantUtc)
    {
        ArgumentNullException.ThrowIfNull(calendar);
        instantUtc = default;
        if (!DateTime.TryParseExact(text, TimePatterns, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local) || calendar.Zone.IsInvalidTime(local))
        {
            return false;
        }

        instantUtc = TimeZoneInfo.ConvertTimeToUtc(local, calendar.Zone);
        return true;
    }
}
