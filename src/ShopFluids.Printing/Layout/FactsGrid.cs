using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Layout;

/// <summary>A label and what stands beside it.</summary>
internal sealed record SheetFact(string Label, string Value, PrintFace Face = PrintFace.Bold);

/// <summary>Labels and values side by side in several columns, read from left to right.</summary>
internal sealed class FactsGrid
{
    private const double LabelGap = 6;
    private const double ColumnGap = 14;
    private const double Lead = SheetStyle.Body * 1.36;
    private readonly IReadOnlyList<IReadOnlyList<Cell>> _rows;
    private readonly double _columnWidth;
    private readonly double[] _labelWidths;

    public FactsGrid(IReadOnlyList<SheetFact> facts, int columns, double width)
    {
        _columnWidth = (width - (ColumnGap * (columns - 1))) / columns;
        _labelWidths = new double[columns];
        for (var n = 0; n < facts.Count; n++)
        {
            var label = PrintFonts.Measure(facts[n].Label, PrintFace.Regular, SheetStyle.Body);
            _labelWidths[n % columns] = Math.Clamp(label, _labelWidths[n % columns], _columnWidth * 0.6);
        }

        _rows = [.. facts.Select((f, n) => Lay(f, n % columns)).Chunk(columns)];
    }

    public double Height => _rows.Sum(RowHeight);

    public void Draw(PrintPage page, double x, double y)
    {
        foreach (var row in _rows)
        {
            for (var n = 0; n < row.Count; n++)
            {
                var left = x + (n * (_columnWidth + ColumnGap));
                Put(page, left, y, row[n].Label, PrintFace.Regular);
                Put(page, left + _labelWidths[n] + LabelGap, y, row[n].Value, row[n].Face);
            }

            y += RowHeight(row);
        }
    }

    private static void Put(PrintPage page, double x, double y, IReadOnlyList<string> lines, PrintFace face)
    {
        for (var n = 0; n < lines.Count; n++)
        {
            page.Text(x, y + (n * Lead) + SheetStyle.Body, lines[n], face, SheetStyle.Body);
        }
    }

    private static double RowHeight(IReadOnlyList<Cell> row) => row.Max(c => Math.Max(c.Label.Count, c.Value.Count)) * Lead;

    private Cell Lay(SheetFact fact, int column) =>
        new(
            TextLines.Break(fact.Label, PrintFace.Regular, SheetStyle.Body, _labelWidths[column]),
            TextLines.Break(fact.Value, fact.Face, SheetStyle.Body, _columnWidth - _labelWidths[column] - LabelGap),
            fact.Face);

    private sealed record Cell(IReadOnlyList<string> Label, IReadOnlyList<string> Value, PrintFace Face);
}
