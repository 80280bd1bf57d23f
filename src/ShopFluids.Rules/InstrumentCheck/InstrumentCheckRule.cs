using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.InstrumentCheck;

/// <summary>Flags an instrument whose check has lapsed: what is read with it meanwhile is as good as nobody knows.</summary>
public static class InstrumentCheckRule
{
    /// <summary>The rule's code.</summary>
    public const string Code = "instrument-check";

    /// <summary>The rule's version.</summary>
    public const int Version = 1;

    /// <summary>Aspect: the last check is too old.</summary>
    public const string Lapsed = "lapsed";

    /// <summary>Aspect: no check that it passed stands.</summary>
    public const string Never = "never";

    /// <summary>For how many days a check holds unless the shop says otherwise: weekly, with the weekly test. Common practice, no source.</summary>
    public const int UsualDays = 7;

    /// <summary>The last shop day on which a check of that day still holds.</summary>
    /// <param name="checkedOn">The day of the check.</param>
    /// <param name="everyDays">For how many days it holds.</param>
    public static DateOnly HoldsUntil(DateOnly checkedOn, int everyDays) => checkedOn.AddDays(everyDays);

    /// <summary>The finding; null while the last check holds.</summary>
    /// <param name="instrument">An instrument that has to be checked.</param>
    /// <param name="calendar">The shop's days.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    public static ShopFinding? Check(InstrumentFacts instrument, ShopCalendar calendar, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(instrument);
        ArgumentNullException.ThrowIfNull(calendar);
        var today = calendar.ShopDayOf(now);
        return instrument.CheckedOn switch
        {
            { } day when today <= HoldsUntil(day, instrument.EveryDays) => null,
            { } day => Found(instrument, Lapsed, today.DayNumber - day.DayNumber, calendar, now),
            null => Found(instrument, Never, 0, calendar, now),
        };
    }

    private static ShopFinding Found(InstrumentFacts instrument, string aspect, int days, ShopCalendar calendar, DateTime now) =>
        new(Code, Version, aspect, instrument.Id, Verdict.Warning, new SortedDictionary<string, decimal>(StringComparer.Ordinal)
        {
            [NumberNames.Days] = days,
            [NumberNames.EveryDays] = instrument.EveryDays,
        }, CorrectiveDue.For(Verdict.Warning, now, calendar));
}
