using ShopFluids.Core.Sheets;
using ShopFluids.Core.Sheets.OverdueWork;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.OverdueWork;

/// <summary>The list on its pages: a table with boxes for each area or person, and under it what is flagged there.</summary>
internal static class OverdueSheetDocument
{
    public static PrintDocument LayOut(OverdueSheet sheet, PaperSize paper) =>
        SheetPages.LayOut(sheet.Frame, (Texts.OverdueSheet_Order, sheet.Order), (Texts.OverdueSheet_Work, sheet.Counts), paper, flow =>
        {
            AddHint(flow, sheet);
            foreach (var group in sheet.Groups)
            {
                AddWork(flow, group, sheet.IsByPerson);
                AddFlags(flow, group);
            }

            AddStores(flow, sheet.Stores);
        });

    private static void AddHint(PageFlow flow, OverdueSheet sheet)
    {
        flow.Note(sheet.Groups.Count + sheet.Stores.Count == 0 ? Texts.OverdueSheet_Nothing : Texts.OverdueSheet_TickHint);
        flow.EndBlock();
    }

    private static void AddWork(PageFlow flow, OverdueGroup group, bool isByPerson) =>
        flow.Table(
            group.Name,
            [
                new(""), new(Texts.Board_Sump, Face: PrintFace.Bold, IsWhole: true), new(Texts.Sheet_Machine), new(Texts.OverdueSheet_Work, TakesRest: true),
                new(Texts.Sheet_Due, Face: PrintFace.Bold, IsWhole: true), new(isByPerson ? Texts.Sheet_Area : Texts.OverdueSheet_Who), new(Texts.OverdueSheet_DoneBy, TakesRest: true),
            ],
            [.. group.Tasks.Select(t => new TableRow([TableCell.Box, t.Sump, t.Machines, t.What, Due(t.Due), t.Other, ""]))],
            Texts.OverdueSheet_NoWork);

    private static void AddFlags(PageFlow flow, OverdueGroup group)
    {
        if (group.Flags.Count == 0)
        {
            return;
        }

        flow.Table(
            SheetText.Fill(Texts.OverdueSheet_Flags, group.Name),
            [
                new(Texts.Board_Sump, Face: PrintFace.Bold, IsWhole: true), new(Texts.Sheet_Raised, IsWhole: true), new(Texts.Sheet_Verdict, Face: PrintFace.Bold, IsWhole: true),
                new(Texts.Sheet_Reason, TakesRest: true),
            ],
            [.. group.Flags.Select(f => new TableRow([f.Sump, f.Raised, new(f.Verdict.Word, VerdictMarks.Of(f.Verdict)), f.Reason]))],
            "");
    }

    private static void AddStores(PageFlow flow, IReadOnlyList<OverdueStore> stores)
    {
        if (stores.Count == 0)
        {
            return;
        }

        flow.Table(
            Texts.OverdueSheet_Stores,
            [new(""), new(Texts.OverdueSheet_Work, TakesRest: true), new(Texts.Sheet_Due, Face: PrintFace.Bold, IsWhole: true), new(Texts.OverdueSheet_DoneBy, IsWhole: true)],
            [.. stores.Select(s => new TableRow([TableCell.Box, s.What, Due(s.Due), ""]))],
            "");
    }

    // The hourglass is for what is late; what is due today has no mark.
    private static TableCell Due(SheetVerdict due) => new(due.Word, due.IsLate ? VerdictMarks.Of(due) : null);
}
