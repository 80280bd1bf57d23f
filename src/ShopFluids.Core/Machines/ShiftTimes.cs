using System.Globalization;

namespace ShopFluids.Core.Machines;

/// <summary>The clock times at which shifts end, as they are typed and stored: such as "14:00 22:00", or with commas.</summary>
public static class ShiftTimes
{
    /// <summary>More shifts in a day are a slip of the finger. Common practice, no source.</summary>
    public const int Most = 6;

    private static readonly string[] Formats = ["H:mm", "HH:mm"];

    /// <summary>Reads the times, in their order within the shop day; false where one is no clock time, comes twice, or there are too many.</summary>
    /// <param name="text">Empty for none.</param>
    /// <param name="dayStartHour">The hour, 0 to 23, at which a shop day begins: a shift that ends then is the day's last.</param>
    public static bool TryRead(string? text, int dayStartHour, out IReadOnlyList<TimeOnly> ends)
    {
        var parts = (text ?? "").Split([' ', ',', ';'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        var times = parts.Select(p => TimeOnly.TryParseExact(p, Formats, CultureInfo.InvariantCulture, DateTimeStyles.None, out var time) ? time : (TimeOnly?)null).ToList();
        ends = [.. times.OfType<TimeOnly>().OrderBy(t => MinutesAfter(dayStartHour, t))];
        return times.Count <= Most && times.TrueForAll(t => t is not null) && ends.Distinct().Count() == ends.Count;
    }

    /// <summary>The text that is stored; null for none.</summary>
    public static string? Written(IReadOnlyList<TimeOnly> ends)
    {
        ArgumentNullException.ThrowIfNull(ends);
        return ends.Count == 0 ? null : string.Join(' ', ends.Select(t => t.ToString("HH:mm", CultureInfo.InvariantCulture)));
    }

    // What ends with the shop day comes last.
    private static double MinutesAfter(int dayStartHour, TimeOnly time)
    {
        var minutes = (time - new TimeOnly(dayStartHour, 0)).TotalMinutes;
        return minutes == 0 ? double.MaxValue : minutes;
    }
}
