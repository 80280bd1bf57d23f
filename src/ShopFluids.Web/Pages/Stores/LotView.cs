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

    public string State => words.Sentences.LotState(trace.Lot);

    public string Answer => words.Sentences.LotAnswer(trace);

    /// <summary>What the books cannot explain; null where they can.</summary>
    public string? Unexplained => words.Sentences.LotUnexplained(trace);

    public string Stretch(TracedCharge charge) => Format.InSump(charge.FirstUtc, charge.UntilUtc);

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

    public string Other(TracedLot lot) => words.Sentences.LotInCharge(lot);

    public string Adjustment(TracedAdjustment adjustment) => Format.Say(
        adjustment.Kind == AdjustmentKind.Counted ? Texts.Stores_WasCounted : Texts.Stores_WasDiscarded,
        Format.LongDay(adjustment.AtUtc),
        Volume(adjustment.BeforeLitres),
        Volume(adjustment.AfterLitres),
        adjustment.Who,
        adjustment.Reason);

    public string Volume(decimal litres) => Format.Volume((double)litres);
}
