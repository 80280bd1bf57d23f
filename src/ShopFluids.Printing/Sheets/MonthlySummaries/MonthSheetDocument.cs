using ShopFluids.Core.Sheets.MonthlySummaries;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.MonthlySummaries;

/// <summary>A month on its pages: the figures, then what stands behind them.</summary>
internal static class MonthSheetDocument
{
    public static PrintDocument LayOut(MonthSheet sheet, PaperSize paper) =>
        SheetPages.LayOut(sheet.Frame, (Texts.MonthSheet_Concentrate, sheet.Facts.Concentrate), (Texts.MonthSheet_Cost, sheet.Facts.Cost), paper, flow =>
        {
            AddFigures(flow, sheet.Facts);
            AddUse(flow, sheet.Use);
            AddWork(flow, sheet.Work);
            AddFlags(flow, sheet.Flags);
            AddCharges(flow, sheet.Charges);
            SignatureLines.Add(flow);
        });

    private static void AddFigures(PageFlow flow, MonthSheetFacts facts) =>
        flow.Facts(
            Texts.MonthSheet_Overall,
            [
                new(Texts.MonthSheet_Readings, facts.Readings), new(Texts.MonthSheet_SumpsRead, facts.SumpsRead), new(Texts.MonthSheet_CleanOuts, facts.CleanOuts),
                .. facts.MeanLife is { } life ? new[] { new SheetFact(Texts.MonthSheet_MeanLife, life) } : [],
            ],
            2);

    private static void AddUse(PageFlow flow, IReadOnlyList<MonthSheetUse> use) =>
        flow.Table(
            Texts.MonthSheet_Use,
            [
                new(Texts.Sheet_Fluid, Face: PrintFace.Bold, TakesRest: true), new(Texts.MonthSheet_FillLitres, IsRight: true), new(Texts.MonthSheet_AddedLitres, IsRight: true),
                new(Texts.Sheet_WaterLitres, IsRight: true), new(Texts.Sheet_RemovedLitres, IsRight: true), new(Texts.MonthSheet_Cost, IsRight: true, Face: PrintFace.Bold),
            ],
            [.. use.Select(u => new TableRow([u.Fluid, u.FillLitres, u.AddedLitres, u.WaterLitres, u.RemovedLitres, u.Cost]))],
            Texts.MonthSheet_NoUse);

    private static void AddWork(PageFlow flow, IReadOnlyList<MonthSheetWork> work) =>
        flow.Table(
            Texts.MonthSheet_Work,
            [
                new(Texts.OverdueSheet_Work, Face: PrintFace.Bold, TakesRest: true), new(Texts.Sheet_Done, IsRight: true), new(Texts.MonthSheet_DoneLate, IsRight: true),
                new(Texts.MonthSheet_Skipped, IsRight: true), new(Texts.MonthSheet_StillLate, IsRight: true),
            ],
            [.. work.Select(w => new TableRow([w.Kind, w.Done, w.Late, w.Skipped, w.StillLate]))],
            Texts.MonthSheet_NoWork);

    private static void AddFlags(PageFlow flow, IReadOnlyList<MonthSheetFlags> flags) =>
        flow.Table(
            Texts.MonthSheet_Flags,
            [
                new(Texts.MonthSheet_Rule, Face: PrintFace.Bold, TakesRest: true), new(Texts.Sheet_Raised, IsRight: true), new(Texts.MonthSheet_Ended, IsRight: true),
                new(Texts.MonthSheet_Closed, IsRight: true), new(Texts.MonthSheet_OpenAtEnd, IsRight: true),
            ],
            [.. flags.Select(f => new TableRow([f.Rule, f.Raised, f.Ended, f.Closed, f.Open]))],
            Texts.MonthSheet_NoFlags);

    private static void AddCharges(PageFlow flow, IReadOnlyList<MonthSheetCharge> charges) =>
        flow.Table(
            Texts.MonthSheet_Charges,
            [
                new(Texts.Board_Sump, Face: PrintFace.Bold, IsWhole: true), new(Texts.Sheet_Charge, IsRight: true), new(Texts.Sheet_Fluid, TakesRest: true), new(Texts.Sheet_Filled, IsWhole: true),
                new(Texts.MonthSheet_Drained, IsWhole: true), new(Texts.MonthSheet_Life, IsWhole: true, IsRight: true), new(Texts.MonthSheet_DrainedLitres, IsRight: true), new(Texts.MonthSheet_How, IsWhole: true),
            ],
            [.. charges.Select(c => new TableRow([c.Sump, c.Charge, c.Fluid, c.Filled, c.Drained, c.Life, c.Litres, c.How]))],
            Texts.MonthSheet_NoCharges);
}
