using ShopFluids.Core.Sheets;
using ShopFluids.Core.Sheets.InstrumentChecks;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;
using ShopFluids.Rules;

namespace ShopFluids.Printing.Sheets.InstrumentChecks;

/// <summary>The check log on its pages: how the instruments stand, their checks, and when a check had lapsed.</summary>
internal static class InstrumentSheetDocument
{
    public static PrintDocument LayOut(InstrumentSheet sheet, PaperSize paper) =>
        SheetPages.LayOut(sheet.Frame, (Texts.InstrumentSheet_Count, sheet.Count), (Texts.InstrumentSheet_LapsedCount, sheet.Lapsed), paper, flow =>
        {
            AddInstruments(flow, sheet.Instruments);
            AddChecks(flow, sheet.Checks);
            AddLapses(flow, sheet.Lapses);
            SignatureLines.Add(flow);
        });

    private static void AddInstruments(PageFlow flow, IReadOnlyList<InstrumentSheetRow> instruments) =>
        flow.Table(
            Texts.InstrumentSheet_Instruments,
            [
                new(Texts.InstrumentSheet_Instrument, Face: PrintFace.Bold, IsWhole: true), new(Texts.InstrumentSheet_Kind, TakesRest: true), new(Texts.InstrumentSheet_Resolution, IsRight: true),
                new(Texts.InstrumentSheet_Accuracy, IsRight: true), new(Texts.InstrumentSheet_Every, IsWhole: true), new(Texts.InstrumentSheet_CheckedOn, IsWhole: true),
                new(Texts.InstrumentSheet_HoldsUntil, IsWhole: true), new(Texts.InstrumentSheet_Standing, Face: PrintFace.Bold, IsWhole: true),
            ],
            [.. instruments.Select(i => new TableRow([i.Tag, i.Kind, i.Resolution, i.Accuracy, i.Every, i.CheckedOn, i.HoldsUntil, Standing(i.Standing)]))],
            Texts.InstrumentSheet_None);

    private static void AddChecks(PageFlow flow, IReadOnlyList<InstrumentSheetCheck> checks) =>
        flow.Table(
            Texts.InstrumentSheet_Checks,
            [
                new(Texts.InstrumentSheet_Instrument, Face: PrintFace.Bold, IsWhole: true), new(Texts.InstrumentSheet_CheckedOn, IsWhole: true), new(Texts.Instrument_Result, Face: PrintFace.Bold, IsWhole: true),
                new(Texts.InstrumentSheet_Standards, TakesRest: true), new(Texts.Instrument_Offset, IsRight: true), new(Texts.Instrument_Slope, IsRight: true), new(Texts.Sheet_By),
            ],
            [.. checks.Select(c => new TableRow([c.Tag, c.CheckedOn, Standing(c.Result), c.Standards, c.Offset, c.Slope, c.By]))],
            Texts.InstrumentSheet_NoChecks);

    private static void AddLapses(PageFlow flow, IReadOnlyList<InstrumentSheetLapse> lapses) =>
        flow.Table(
            Texts.InstrumentSheet_Lapses,
            [
                new(Texts.InstrumentSheet_Instrument, Face: PrintFace.Bold, IsWhole: true), new(Texts.InstrumentSheet_LapsedFrom, IsWhole: true), new(Texts.InstrumentSheet_LapsedUntil, IsWhole: true),
                new(Texts.InstrumentSheet_Values, IsRight: true), new(Texts.InstrumentSheet_Answer, TakesRest: true),
            ],
            [.. lapses.Select(l => new TableRow([l.Tag, l.From, l.Until, l.Readings, l.Answer]))],
            Texts.InstrumentSheet_NoLapses);

    // What needs no check has no verdict, and so no mark.
    private static TableCell Standing(SheetVerdict standing) =>
        new(standing.Word, standing is { IsLate: true } or { Verdict: not Verdict.NotMeasured } ? VerdictMarks.Of(standing) : null);
}
