using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.History;

/// <summary>Where the sump stands, and beside it the charge that is in it.</summary>
internal static class StandingBlock
{
    private const double Between = 17;

    public static void Add(PageFlow flow, HistorySheetStanding standing, HistorySheetCharge? charge)
    {
        var width = (flow.Width - Between) / 2;
        var right = flow.Left + width + Between;
        flow.HeadingAt(flow.Left, flow.Y, SheetText.Fill(Texts.Sheet_StandingOn, standing.At));
        flow.HeadingAt(right, flow.Y, Texts.Sheet_CurrentCharge);
        var top = flow.Y + PageFlow.HeadingHeight;
        flow.Y = Math.Max(Standing(flow.Page, standing, flow.Left, top, width), Charge(flow.Page, charge, right, top, width));
        flow.EndBlock();
    }

    private static double Standing(PrintPage page, HistorySheetStanding standing, double x, double y, double width)
    {
        if (standing.Rows.Count == 0)
        {
            return Sentence(page, x, y, Texts.Sheet_NothingMeasured);
        }

        var table = new TableLayout(
            [new(""), new("", Face: PrintFace.Bold, IsWhole: true), new("", TakesRest: true), new("", Face: PrintFace.Bold, IsWhole: true)],
            [.. standing.Rows.Select(r => new TableRow([r.Parameter, r.Value, r.Remark, new TableCell(r.Verdict.Word, VerdictMarks.Of(r.Verdict))]))],
            width);
        for (var row = 0; row < table.Count; row++)
        {
            y = table.DrawRow(page, x, y, row);
        }

        return y;
    }

    private static double Charge(PrintPage page, HistorySheetCharge? charge, double x, double y, double width)
    {
        if (charge is null)
        {
            return Sentence(page, x, y, Texts.Sheet_NoCharge);
        }

        (string Label, string? Value, PrintFace Face)[] known =
        [
            (Texts.Sheet_Charge, charge.Number, PrintFace.Bold), (Texts.Sheet_Age, charge.Age, PrintFace.Bold),
            (Texts.Sheet_Filled, charge.FilledOn, PrintFace.Bold), (Texts.Sheet_FillLot, charge.FillLot, PrintFace.Mono),
            (Texts.Sheet_Volume, charge.Volume, PrintFace.Bold), (Texts.Sheet_TakenOut, charge.Removed, PrintFace.Bold),
            (Texts.Sheet_WaterFilled, charge.WaterFilled, PrintFace.Bold), (Texts.Sheet_ConcentrateFilled, charge.ConcentrateFilled, PrintFace.Bold),
            (Texts.Sheet_WaterAdded, charge.WaterAdded, PrintFace.Bold), (Texts.Sheet_ConcentrateAdded, charge.ConcentrateAdded, PrintFace.Bold),
            (Texts.Sheet_Evaporated, charge.Evaporated, PrintFace.Bold), (Texts.Sheet_CarriedOff, charge.CarriedOff, PrintFace.Bold),
            (Texts.Sheet_HardnessNow, charge.HardnessNow, PrintFace.Bold),
        ];
        var grid = new FactsGrid([.. known.Where(f => !string.IsNullOrWhiteSpace(f.Value)).Select(f => new SheetFact(f.Label, f.Value ?? "", f.Face))], 2, width);

        // A hair lower, so that its first line stands level with the first row of the table beside it.
        const double drop = 1.5;
        grid.Draw(page, x, y + drop);
        return y + drop + grid.Height;
    }

    private static double Sentence(PrintPage page, double x, double y, string text)
    {
        page.Text(x, y + SheetStyle.Body, text, PrintFace.Regular, SheetStyle.Body);
        return y + (SheetStyle.Body * SheetStyle.LineHeight);
    }
}
