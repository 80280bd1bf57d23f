using ShopFluids.Core.Sheets.DosingLogs;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.DosingLogs;

/// <summary>The dosing log on its pages: totals before entries.</summary>
internal static class DoseSheetDocument
{
    public static PrintDocument LayOut(DoseSheet sheet, PaperSize paper) =>
        SheetPages.LayOut(sheet.Frame, (Texts.DoseSheet_Count, sheet.Count), (Texts.DoseSheet_Biocidal, sheet.Biocidal), paper, flow =>
        {
            flow.Note(Texts.DoseSheet_Hint);
            flow.EndBlock();
            AddTotals(flow, sheet.Totals);
            AddEntries(flow, sheet.Entries);
            SignatureLines.Add(flow);
        });

    private static void AddTotals(PageFlow flow, IReadOnlyList<DoseSheetTotal> totals) =>
        flow.Table(
            Texts.DoseSheet_ByProduct,
            [
                new(Texts.Dose_Product, Face: PrintFace.Bold, TakesRest: true), new(Texts.Dose_Kind), new(Texts.DoseSheet_Doses, IsRight: true),
                new(Texts.Dose_Amount, IsRight: true, Face: PrintFace.Bold),
            ],
            [.. totals.Select(t => new TableRow([t.Product, t.Kind, t.Doses, t.Amount]))],
            Texts.DoseSheet_None);

    private static void AddEntries(PageFlow flow, IReadOnlyList<DoseSheetEntry> entries)
    {
        if (entries.Count == 0)
        {
            return;
        }

        flow.Table(
            Texts.DoseSheet_Entries,
            [
                new(Texts.Sheet_When), new(Texts.DoseSheet_Sump, Face: PrintFace.Bold), new(Texts.Dose_Product), new(Texts.Dose_Kind),
                new(Texts.Dose_Amount, IsRight: true, Face: PrintFace.Bold), new(Texts.Dose_Reached, IsRight: true), new(Texts.Dose_LabelMost, IsRight: true), new(Texts.Dose_ReentryUntil),
                new(Texts.Sheet_Reason, TakesRest: true), new(Texts.Sheet_By),
            ],
            [.. entries.Select(Entry)],
            "");
    }

    // Of a dose that is struck out stands in plain why.
    private static TableRow Entry(DoseSheetEntry e)
    {
        TableCell[] facts = [e.When, e.Sump, e.Product, e.Kind, e.Amount, e.Reached, e.LabelMost, e.Reentry];
        return new([.. facts, e.StruckOut is null ? e.Reason : $"{e.StruckOut}\n{e.Reason}", e.By], e.StruckOut is null ? 0 : facts.Length);
    }
}
