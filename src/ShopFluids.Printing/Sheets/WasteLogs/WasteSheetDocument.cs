using ShopFluids.Core.Sheets.WasteLogs;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.WasteLogs;

/// <summary>The waste log on its pages: totals before entries.</summary>
internal static class WasteSheetDocument
{
    public static PrintDocument LayOut(WasteSheet sheet, PaperSize paper) =>
        SheetPages.LayOut(sheet.Frame, (Texts.WasteSheet_Total, sheet.Total), (Texts.WasteSheet_Hazardous, sheet.Hazardous), paper, flow =>
        {
            AddCodes(flow, sheet);
            AddMonths(flow, sheet.Months);
            AddEntries(flow, sheet.Entries);
            SignatureLines.Add(flow);
        });

    private static void AddCodes(PageFlow flow, WasteSheet sheet)
    {
        flow.Note(sheet.Uncoded is { } uncoded ? $"{Texts.WasteSheet_HazardousHint} {SheetText.Fill(Texts.WasteSheet_Uncoded, uncoded)}" : Texts.WasteSheet_HazardousHint);
        flow.EndBlock();
        flow.Table(
            Texts.WasteSheet_ByCode,
            [
                new(Texts.WasteSheet_Code, Face: PrintFace.Bold, IsWhole: true), new(Texts.WasteSheet_Meaning, TakesRest: true), new(Texts.WasteSheet_Times, IsRight: true),
                new(Texts.WasteSheet_Litres, IsRight: true, Face: PrintFace.Bold),
            ],
            [.. sheet.Codes.Select(c => new TableRow([c.Code, c.Meaning, c.Entries, c.Litres]))],
            Texts.WasteSheet_None);
    }

    private static void AddMonths(PageFlow flow, IReadOnlyList<WasteSheetMonth> months)
    {
        if (months.Count == 0)
        {
            return;
        }

        flow.Table(
            Texts.WasteSheet_ByMonth,
            [
                new(Texts.Stores_Month, Face: PrintFace.Bold, IsWhole: true), new(Texts.WasteSheet_Code, TakesRest: true), new(Texts.WasteSheet_Litres, IsRight: true),
                new(Texts.WasteSheet_MonthLitres, IsRight: true, Face: PrintFace.Bold),
            ],
            [.. months.Select(m => new TableRow([m.Month, m.Code, m.Litres, m.MonthLitres]))],
            "");
    }

    private static void AddEntries(PageFlow flow, IReadOnlyList<WasteSheetEntry> entries)
    {
        if (entries.Count == 0)
        {
            return;
        }

        flow.Table(
            Texts.WasteSheet_Entries,
            [
                new(Texts.Sheet_When, IsWhole: true), new(Texts.WasteSheet_From, Face: PrintFace.Bold, IsWhole: true), new(Texts.Sheet_What), new(Texts.WasteSheet_Code, IsWhole: true),
                new(Texts.WasteSheet_Litres, IsRight: true, Face: PrintFace.Bold), new(Texts.WasteSheet_Halogens), new(Texts.WasteSheet_Carrier, TakesRest: true), new(Texts.Sheet_By, IsWhole: true),
            ],
            [.. entries.Select(e => new TableRow([e.When, e.From, e.What, e.Code, e.Litres, e.Halogens, e.Carrier, e.By]))],
            "");
        flow.Note(Texts.WasteSheet_HalogensHint);
        flow.EndBlock();
    }
}
