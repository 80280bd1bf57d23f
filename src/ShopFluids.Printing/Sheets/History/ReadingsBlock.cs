using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;
using ShopFluids.Rules;

namespace ShopFluids.Printing.Sheets.History;

/// <summary>Every reading of the period with every value. A superseded one stays, struck through, with its reason in plain.</summary>
internal static class ReadingsBlock
{
    public static void Add(PageFlow flow, HistorySheetReadings readings) =>
        flow.Table(Texts.Sheet_Readings, Columns(readings), [.. readings.Rows.Select(Row)], Texts.Sheet_NoReadings);

    private static TableColumn[] Columns(HistorySheetReadings readings) =>
    [
        new(Texts.Sheet_When), new(Texts.Sheet_By),
        .. readings.Columns.Select(c => new TableColumn(c.Heading, c.IsNumber, c.IsMain ? PrintFace.Bold : PrintFace.Regular)),
        new(Texts.Sheet_Verdict, Face: PrintFace.Bold), new(Texts.Sheet_Remarks, TakesRest: true),
    ];

    private static TableRow Row(HistorySheetReading reading)
    {
        TableCell[] facts = [reading.When, reading.By, .. reading.Cells.Select(Cell), new(reading.Verdict.Word, VerdictMarks.Of(reading.Verdict))];
        string[] remarks = [reading.Superseded ?? "", reading.Remark];
        return new TableRow([.. facts, string.Join('\n', remarks.Where(r => r.Length > 0))], reading.Superseded is null ? 0 : facts.Length);
    }

    /// <summary>A value out of range carries its mark, so that the reader sees which one it was.</summary>
    private static TableCell Cell(HistorySheetCell cell) =>
        new(cell.Text, cell.Verdict >= Verdict.Warning ? VerdictMarks.Of(cell.Verdict, cell.Direction) : null);
}
