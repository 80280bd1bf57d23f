using ShopFluids.Core.Setup;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Sheets.LotTraces;

/// <summary>Puts a trace into the words of the sheet.</summary>
internal sealed class LotSheetMaker(ShopSetup setup, Sentences say, DateTime nowUtc)
{
    private ShopFormat Format => say.Format;

    public LotSheet Make(SheetFrame frame, LotTrace trace, IReadOnlyList<SumpLots> back) => new(
        frame,
        Lot(trace),
        say.LotAnswer(trace),
        [.. trace.Charges.Select(c => new LotSheetCharge(
            c.SumpTag, Machines(c.Machines), Format.Count(c.ChargeNumber), Format.InSump(c.FirstUtc, c.UntilUtc), Litres(c.Litres), Lots(c.OtherLots)))],
        [.. trace.Charges.SelectMany(c => c.Pours.Select(p => (c.SumpTag, Pour: p))).OrderBy(p => p.Pour.AtUtc).ThenBy(p => p.SumpTag, StringComparer.Ordinal).Select(p => Pour(p.SumpTag, p.Pour))],
        [.. back.Select(c => new LotSheetBack(c.SumpTag, Machines(c.Machines), Format.Count(c.ChargeNumber), Format.InSump(c.FilledAtUtc, c.DrainedAtUtc), Lots(c.Lots)))],
        [.. trace.Adjustments.Select(a => new LotSheetCount(
            Format.Moment(a.AtUtc, nowUtc),
            a.Kind == AdjustmentKind.Counted ? Texts.LotSheet_Counted : Texts.LotSheet_Discarded,
            Litres(a.BeforeLitres),
            Litres(a.AfterLitres),
            a.Who,
            a.Reason))]);

    private LotSheetLot Lot(LotTrace trace) => new(
        trace.Lot.Number,
        setup.Fluid(trace.Lot.FluidId).Name,
        Format.LongDay(trace.Lot.ReceivedOn),
        Format.LongDay(trace.Lot.ExpiresOn),
        Volume(trace.Lot.ReceivedLitres),
        Volume(trace.PouredLitres),
        Volume(trace.Lot.RemainingLitres),
        say.LotState(trace.Lot),
        say.LotBooks(trace));

    private LotSheetPour Pour(string sump, TracedPour pour) => new(
        Format.Moment(pour.AtUtc, nowUtc),
        sump,
        pour.IsFill ? Texts.Sheet_MovedFill : Texts.Sheet_MovedTopUp,
        Litres(pour.ConcentrateLitres),
        Litres(pour.WaterLitres),
        pour.Who,
        pour.OverrideReason ?? "");

    private string Lots(IReadOnlyList<TracedLot> lots) => lots.Count == 0 ? Texts.Stores_NothingElse : string.Join('\n', lots.Select(say.LotInCharge));

    private static string Machines(IReadOnlyList<string> tags) => string.Join(", ", tags);

    private string Litres(decimal litres) => Format.VolumeNumber((double)litres);

    private string Volume(decimal litres) => Format.Volume((double)litres);
}
