using ShopFluids.Core.Stores;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Stores;

/// <summary>Where a lot went, as it is shown.</summary>
public sealed class LotView(LotTrace trace, DeskWords words, bool maySupervise)
{
    public LotTrace Trace => trace;

    public DeskWords Words => words;

    public bool MaySupervise => maySupervise;

    private ShopFormat Format => words.Format;

    public string FluidName => words.Setup.Fluid(trace.Lot.FluidId).Name;

    public string Facts => Format.Say(
        Texts.Stores_LotFacts,
        FluidName,
        Format.LongDay(trace.Lot.ReceivedOn),
        Format.LongDay(trace.Lot.ExpiresOn),
        Volume(trace.Lot.RemainingLitres),
        Volume(trace.Lot.ReceivedLitres));

    public string State =>
        trace.Lot.QuarantineReason is { } reason ? Format.Say(Texts.Setup_LotQuarantined, reason)
        : trace.Lot.RemainingLitres == 0 ? Texts.Setup_LotUsedUp
        : trace.Lot.IsExpired ? Texts.Setup_LotExpired
        : Texts.Setup_LotUsable;

    /// <summary>One sentence that answers the question: how many charges, sumps and machines.</summary>
    public string Answer
    {
        get
        {
            var machines = trace.Charges.SelectMany(c => c.Machines).Distinct(StringComparer.Ordinal).Count();
            var sumps = trace.Charges.Select(c => c.SumpTag).Distinct(StringComparer.Ordinal).Count();
            return trace.Charges.Count == 0
                ? Texts.Stores_TraceNowhere
                : Format.Say(Texts.Stores_TraceAnswer, Format.Count(trace.Charges.Count), Format.Count(sumps), Format.Count(machines), Volume(trace.Charges.Sum(c => c.Litres)));
        }
    }

    /// <summary>What the books cannot explain; null where they can.</summary>
    public string? Unexplained => trace.UnexplainedLitres == 0 ? null : Format.Say(Texts.Stores_Unexplained, Volume(trace.UnexplainedLitres));

    public string Stretch(TracedCharge charge) => charge.UntilUtc is { } until
        ? Format.Say(Texts.Time_FromTo, Format.LongDay(charge.FirstUtc), Format.LongDay(until))
        : Format.Say(Texts.Stores_SinceStillIn, Format.LongDay(charge.FirstUtc));

    /// <summary>So many pours are told at once; of more, how many and when, and each when it is asked for.</summary>
    public const int FewPours = 3;

    public string Pours(TracedCharge charge) => charge.Pours.Count == 1
        ? Format.LongDay(charge.FirstUtc)
        : Format.Say(Texts.Stores_PouredTimes, Format.Count(charge.Pours.Count), Format.LongDay(charge.FirstUtc), Format.LongDay(charge.Pours[^1].AtUtc));

    public string Pour(TracedPour pour)
    {
        var text = Format.Say(pour.IsFill ? Texts.Stores_PourFill : Texts.Stores_PourAdded, Format.LongDay(pour.AtUtc), Volume(pour.ConcentrateLitres), Volume(pour.WaterLitres), pour.Who);
        return pour.OverrideReason is { } reason ? $"{text} {Format.Say(Texts.Stores_Override, reason)}" : text;
    }

    public string Other(TracedLot lot) => Format.Say(Texts.Stores_OtherLot, lot.Number, lot.FluidName, Volume(lot.Litres));

    public string Adjustment(TracedAdjustment adjustment) => Format.Say(
        adjustment.Kind == AdjustmentKind.Counted ? Texts.Stores_WasCounted : Texts.Stores_WasDiscarded,
        Format.LongDay(adjustment.AtUtc),
        Volume(adjustment.BeforeLitres),
        Volume(adjustment.AfterLitres),
        adjustment.Who,
        adjustment.Reason);

    public string Volume(decimal litres) => Format.Volume((double)litres);
}
