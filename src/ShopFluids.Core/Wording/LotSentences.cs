using ShopFluids.Core.Setup;
using ShopFluids.Core.Stores;

namespace ShopFluids.Core.Wording;

/// <summary>Says how a lot stands and where it went.</summary>
public static class LotSentences
{
    public static string LotState(this Sentences say, LotRow lot)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(lot);
        return lot.QuarantineReason is { } reason ? say.Format.Say(Texts.Setup_LotQuarantined, reason)
            : lot.RemainingLitres == 0 ? Texts.Setup_LotUsedUp
            : lot.IsExpired ? Texts.Setup_LotExpired
            : Texts.Setup_LotUsable;
    }

    /// <summary>One sentence that answers the question: how many charges, sumps and machines.</summary>
    public static string LotAnswer(this Sentences say, LotTrace trace)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(trace);
        var machines = trace.Charges.SelectMany(c => c.Machines).Distinct(StringComparer.Ordinal).Count();
        var sumps = trace.Charges.Select(c => c.SumpTag).Distinct(StringComparer.Ordinal).Count();
        return trace.Charges.Count == 0
            ? Texts.Stores_TraceNowhere
            : say.Format.Say(Texts.Stores_TraceAnswer, say.Format.Count(trace.Charges.Count), say.Format.Count(sumps), say.Format.Count(machines), Volume(say, trace.Charges.Sum(c => c.Litres)));
    }

    /// <summary>What the books cannot explain; null where they can.</summary>
    public static string? LotUnexplained(this Sentences say, LotTrace trace)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(trace);
        return trace.UnexplainedLitres == 0 ? null : say.Format.Say(Texts.Stores_Unexplained, Volume(say, trace.UnexplainedLitres));
    }

    /// <summary>Whether what is left of a lot is what the books say: what nothing explains, what counts took off or put to it, or that nothing is missing.</summary>
    public static string LotBooks(this Sentences say, LotTrace trace)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(trace);
        var counted = trace.Adjustments.Where(a => a.Kind == AdjustmentKind.Counted).Sum(a => a.AfterLitres - a.BeforeLitres);
        var byCount = counted == 0 ? null : say.Format.Say(counted < 0 ? Texts.LotSheet_LessByCount : Texts.LotSheet_MoreByCount, Volume(say, Math.Abs(counted)));
        return string.Join(". ", new[] { say.LotUnexplained(trace), byCount }.OfType<string>().DefaultIfEmpty(Texts.LotSheet_BooksRight));
    }

    /// <summary>From when to when it was in the sump.</summary>
    public static string InSump(this ShopFormat format, DateTime sinceUtc, DateTime? untilUtc)
    {
        ArgumentNullException.ThrowIfNull(format);
        return untilUtc is { } until
            ? format.Say(Texts.Time_FromTo, format.LongDay(sinceUtc), format.LongDay(until))
            : format.Say(Texts.Stores_SinceStillIn, format.LongDay(sinceUtc));
    }

    /// <summary>2611-A Emulsion A, 2.0 L.</summary>
    public static string LotInCharge(this Sentences say, TracedLot lot)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(lot);
        return say.Format.Say(Texts.Stores_OtherLot, lot.Number, lot.FluidName, Volume(say, lot.Litres));
    }

    private static string Volume(Sentences say, decimal litres) => say.Format.Volume((double)litres);
}
