using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.History;

/// <summary>What happened besides the readings: flags, additions and removals, lots, tasks.</summary>
internal static class TableBlocks
{
    public static void AddFlags(PageFlow flow, IReadOnlyList<HistorySheetFlag> flags) =>
        flow.Table(
            Texts.Sheet_Flags,
            [new(Texts.Sheet_Raised, IsWhole: true), new(Texts.Sheet_Verdict, Face: PrintFace.Bold, IsWhole: true), new(Texts.Sheet_Reason, TakesRest: true), new(Texts.Sheet_Ended)],
            [.. flags.Select(f => new TableRow([f.Raised, new(f.Verdict.Word, VerdictMarks.Of(f.Verdict)), f.Reason, f.Ended]))],
            Texts.Sheet_NoFlags);

    public static void AddMovements(PageFlow flow, IReadOnlyList<HistorySheetMovement> movements) =>
        flow.Table(
            Texts.Sheet_Movements,
            [
                new(Texts.Sheet_When, IsWhole: true), new(Texts.Sheet_What), new(Texts.Sheet_WaterLitres, IsRight: true), new(Texts.Sheet_ConcentrateLitres, IsRight: true),
                new(Texts.Sheet_RemovedLitres, IsRight: true), new(Texts.Sheet_Lot, Face: PrintFace.Mono, IsWhole: true), new(Texts.Sheet_By, IsWhole: true), new(Texts.Sheet_Remarks, TakesRest: true),
            ],
            [.. movements.SelectMany(Movement)],
            Texts.Sheet_NoMovements);

    // A dose says in its remark what it was. Struck out, all of its row is struck through, and why stands under it in plain.
    private static IEnumerable<TableRow> Movement(HistorySheetMovement m)
    {
        TableCell[] cells = [m.When, m.What, m.WaterLitres, m.ConcentrateLitres, m.RemovedLitres, m.Lot, m.By, m.Remark];
        return m.StruckOut is { } why ? [new(cells, cells.Length), new(["", "", "", "", "", "", "", why])] : [new(cells)];
    }

    public static void AddLots(PageFlow flow, IReadOnlyList<HistorySheetLot> lots) =>
        flow.Table(
            Texts.Sheet_Lots,
            [new(Texts.Sheet_Lot, Face: PrintFace.Mono, IsWhole: true), new(Texts.Sheet_Fluid, TakesRest: true), new(Texts.Sheet_Received, IsWhole: true), new(Texts.Sheet_Expiry, IsWhole: true), new(Texts.Sheet_DrawnLitres, IsRight: true)],
            [.. lots.Select(l => new TableRow([l.Lot, l.Fluid, l.Received, l.Expiry, l.DrawnLitres]))],
            Texts.Sheet_NoLots);

    public static void AddTasks(PageFlow flow, IReadOnlyList<HistorySheetTask> tasks) =>
        flow.Table(
            Texts.Sheet_Tasks,
            [new(Texts.Sheet_Due, IsWhole: true), new(Texts.Sheet_Done, IsWhole: true), new(Texts.Sheet_Task, TakesRest: true), new(Texts.Sheet_By, IsWhole: true)],
            [.. tasks.Select(t => new TableRow([t.Due, t.Done, t.What, t.By]))],
            Texts.Sheet_NoTasks);

    public static void AddCleanOuts(PageFlow flow, IReadOnlyList<HistorySheetCleanOutStep> steps)
    {
        if (steps.Count == 0)
        {
            return;
        }

        flow.Table(
            Texts.Sheet_CleanOuts,
            [new(Texts.Sheet_When, IsWhole: true), new(Texts.Sheet_What), new(Texts.Sheet_Noted, TakesRest: true), new(Texts.Sheet_By, IsWhole: true)],
            [.. steps.Select(s => new TableRow([s.When, s.Step, s.Noted, s.By]))],
            "");
    }
}
