namespace ShopFluids.Core.Wording;

public sealed partial class ShopFormat
{
    /// <summary>We: two letters for the head of a narrow column.</summary>
    public string DayLetters(DateOnly day)
    {
        var name = Culture.DateTimeFormat.GetAbbreviatedDayName(day.DayOfWeek);
        return name.Length > 2 ? name[..2] : name;
    }

    /// <summary>Nov 2026.</summary>
    /// <param name="month">Any of its days.</param>
    public string Month(DateOnly month) => month.ToString("MMM yyyy", Culture);

    /// <summary>Wednesday 25 November, 14:32.</summary>
    public string LongMoment(DateTime instantUtc) => $"{ToShopTime(instantUtc).ToString("dddd d MMMM", Culture)}, {Time(instantUtc)}";

    /// <summary>Sat 28 Nov to Sun 29 Nov; one day alone where both are the same.</summary>
    public string Days(DateOnly first, DateOnly last) => first == last ? Weekday(first) : Say(Texts.Time_FromTo, Weekday(first), Weekday(last));
}
