using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Lot;

/// <summary>
/// Flags a lot of concentrate that nobody should draw from (expired, in quarantine, open for longer than its data sheet allows), and a fluid of
/// which the stores hold less than the coming two weeks want.
/// </summary>
public static class LotRule
{
    /// <summary>The rule's code.</summary>
    public const string Code = "lot";

    /// <summary>The rule's version.</summary>
    public const int Version = 1;

    /// <summary>Aspect: past the last day on which it may be used.</summary>
    public const string Expired = "expired";

    /// <summary>Aspect: set apart.</summary>
    public const string Quarantined = "quarantined";

    /// <summary>Aspect: open for longer than it keeps.</summary>
    public const string OpenedTooLong = "opened-too-long";

    /// <summary>Aspect of a fluid: less on hand than will be wanted.</summary>
    public const string LowStock = "low-stock";

    /// <summary>How far ahead the stores are to last: order and delivery. Common practice, no source.</summary>
    public const int HorizonDays = 14;

    /// <summary>Over how many days back the daily use is reckoned. Common practice, no source.</summary>
    public const int UseDays = 30;

    /// <summary>Less than this is the rest in a drum, and no lot that somebody might draw from, L. Common practice, no source.</summary>
    public const decimal LeastLitres = 1;

    // What was short is enough only with a tenth over it, so that a flag does not come and go with every top-up. Common practice, no source.
    private const decimal EnoughAgain = 1.1m;

    private static readonly TimeSpan ReviewWithin = TimeSpan.FromDays(7);
    private static readonly TimeSpan OrderWithin = TimeSpan.FromDays(2);

    /// <summary>What is wrong with a lot; nothing once it is used up but for the rest in its drum.</summary>
    /// <param name="lot">The lot.</param>
    /// <param name="calendar">The shop's days.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    public static IEnumerable<ShopFinding> Check(LotFacts lot, ShopCalendar calendar, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(lot);
        ArgumentNullException.ThrowIfNull(calendar);
        if (lot.RemainingLitres < LeastLitres)
        {
            yield break;
        }

        var today = calendar.ShopDayOf(now);
        if (lot.IsQuarantined)
        {
            yield return Review(lot, Quarantined, 0, calendar, now);
        }

        if (today > lot.ExpiresOn)
        {
            yield return Review(lot, Expired, today.DayNumber - lot.ExpiresOn.DayNumber, calendar, now);
        }
        else if (lot is { OpenedOn: { } opened, OpenedLifeDays: { } life } && today > opened.AddDays(life))
        {
            yield return Review(lot, OpenedTooLong, today.DayNumber - opened.DayNumber, calendar, now);
        }
    }

    /// <summary>Whether the stores hold too little of a fluid; null when they hold enough, or nothing will be wanted.</summary>
    /// <param name="stock">What is on hand and what will be wanted.</param>
    /// <param name="isKnown">The fluid was found short before and has not been enough since.</param>
    /// <param name="calendar">The shop's days.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    public static ShopFinding? Check(StockFacts stock, bool isKnown, ShopCalendar calendar, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(stock);
        ArgumentNullException.ThrowIfNull(calendar);
        var needed = stock.PlannedLitres + (stock.UsedPerDayLitres * HorizonDays);
        return needed <= 0 || stock.UsableLitres >= (isKnown ? needed * EnoughAgain : needed)
            ? null
            : new(Code, Version, LowStock, stock.FluidId, Verdict.Warning, new SortedDictionary<string, decimal>(StringComparer.Ordinal)
            {
                [NumberNames.UsableLitres] = decimal.Round(stock.UsableLitres, 1),
                [NumberNames.NeededLitres] = decimal.Round(needed, 1),
                [NumberNames.PlannedLitres] = decimal.Round(stock.PlannedLitres, 1),
            }, CorrectiveDue.Within(OrderWithin, now, calendar));
    }

    private static ShopFinding Review(LotFacts lot, string aspect, int days, ShopCalendar calendar, DateTime now) =>
        new(Code, Version, aspect, lot.Id, Verdict.Warning, new SortedDictionary<string, decimal>(StringComparer.Ordinal)
        {
            [NumberNames.RemainingLitres] = decimal.Round(lot.RemainingLitres, 1),
            [NumberNames.Days] = days,
        }, CorrectiveDue.Within(ReviewWithin, now, calendar));
}
