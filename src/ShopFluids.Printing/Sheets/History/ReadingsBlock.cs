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
    public static void Add(PageFlow flow, HistorySheetReadings readings)
    {
        // A sump with many parameters gets a second table for those that do not fit beside verdict and remarks; no value is squeezed.
        var count = Math.Max(1, Fitting(flow, readings, 0, Visit(), Outcome()));
        flow.Table(
            Texts.Sheet_Readings,
            [.. Visit(), .. Values(readings, 0, count), .. Outcome()],
            [.. readings.Rows.Select(r => Row(r, 0, count, withOutcome: true))],
            Texts.Sheet_NoReadings);
        for (var first = count; first < readings.Columns.Count; first += count)
        {
            count = Math.Max(1, Fitting(flow, readings, first, Visit(), []));
            var (from, to) = (first, Math.Min(first + count, readings.Columns.Count));
            var measured = readings.Rows.Where(r => r.Cells.Take(from..to).Any(c => c.Text.Length > 0)).ToList();
            if (measured.Count > 0)
            {
                flow.Table(
                    Texts.Sheet_FurtherValues,
                    [.. Visit(), .. Values(readings, from, to), new("", TakesRest: true)],
                    [.. measured.Select(r => Row(r, from, to, withOutcome: false))],
                    Texts.Sheet_NoReadings);
            }
        }
    }

    private static int Fitting(PageFlow flow, HistorySheetReadings readings, int first, TableColumn[] left, TableColumn[] right) =>
        TableLayout.Fitting(
            [.. left, .. right],
            [.. readings.Rows.Select(r => new TableRow([r.When, r.By, .. right.Length > 0 ? Ending(r) : []]))],
            Values(readings, first, readings.Columns.Count),
            [.. readings.Rows.Select(r => new TableRow([.. r.Cells.Skip(first).Select(Cell)]))],
            flow.Width);

    private static TableColumn[] Visit() => [new(Texts.Sheet_When, IsWhole: true), new(Texts.Sheet_By, IsWhole: true)];

    private static TableColumn[] Outcome() => [new(Texts.Sheet_Verdict, Face: PrintFace.Bold, IsWhole: true), new(Texts.Sheet_Remarks, TakesRest: true)];

    private static TableColumn[] Values(HistorySheetReadings readings, int from, int to) =>
        [.. readings.Columns.Take(from..to).Select(c => new TableColumn(c.Heading, c.IsNumber, c.IsMain ? PrintFace.Bold : PrintFace.Regular))];

    private static TableRow Row(HistorySheetReading reading, int from, int to, bool withOutcome)
    {
        TableCell[] facts = [reading.When, reading.By, .. reading.Cells.Take(from..to).Select(Cell)];
        TableCell[] cells = [.. facts, .. withOutcome ? Ending(reading) : [""]];
        return new TableRow(cells, reading.Superseded is null ? 0 : facts.Length + (withOutcome ? 1 : 0));
    }

    /// <summary>The verdict, and last the remarks with the reason of a supersession before them.</summary>
    private static TableCell[] Ending(HistorySheetReading reading)
    {
        string[] remarks = [reading.Superseded ?? "", reading.Remark];
        return [new(reading.Verdict.Word, VerdictMarks.Of(reading.Verdict)), string.Join('\n', remarks.Where(r => r.Length > 0))];
    }

    /// <summary>A value out of range carries its mark, so that the reader sees which one it was.</summary>
    private static TableCell Cell(HistorySheetCell cell) =>
        new(cell.Text, cell.Verdict >= Verdict.Warning ? VerdictMarks.Of(cell.Verdict, cell.Direction) : null);
}
