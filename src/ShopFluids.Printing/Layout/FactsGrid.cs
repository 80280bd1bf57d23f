using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Layout;

/// <summary>A label and what stands beside it.</summary>
internal sealed record SheetFact(string Label, string Value, PrintFace Face = PrintFace.Bold);

/// <summary>Labels and values side by side in several columns, read from left to right.</summary>
internal sealed class FactsGrid
{
    private const double LabelGap = 6;
    private const double ColumnGap = 14;
    private const double MostForLabel = 0.62;
    private const double Lead = SheetStyle.Body * 1.36;
    private readonly IReadOnlyList<IReadOnlyList<Cell>> _rows;
    private readonly IReadOnlyList<double> _widths;
    private readonly double[] _labelWidths;

    public FactsGrid(IReadOnlyList<SheetFact> facts, int columns, double width)
    {
        var available = width - (ColumnGap * (columns - 1));
        var byColumn = Enumerable.Range(0, columns).Select(c => facts.Where((_, n) => n % columns == c).ToList()).ToList();
        _labelWidths = [.. byColumn.Select(fs => Math.Min(fs.Select(f => Measure(f.Label, PrintFace.Regular)).DefaultIfEmpty(0).Max(), available / columns * MostForLabel))];
        _widths = TableWidths.Share([.. byColumn.Select((fs, c) => Demand(fs, _labelWidths[c] + LabelGap, available / columns))], available);
        _rows = [.. facts.Select((f, n) => Lay(f, n % columns)).Chunk(columns)];
    }

    public double Height => _rows.Sum(RowHeight);

    public void Draw(PrintPage page, double x, double y)
    {
        foreach (var row in _rows)
        {
            var left = x;
            for (var n = 0; n < row.Count; n++)
            {
                Put(page, left, y, row[n].Label, PrintFace.Regular);
                Put(page, left + _labelWidths[n] + LabelGap, y, row[n].Value, row[n].Face);
                left += _widths[n] + ColumnGap;
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

    private static double Measure(string text, PrintFace face) => PrintFonts.Measure(text, face, SheetStyle.Body);

    private static (double Least, double Wanted, bool TakesRest) Demand(List<SheetFact> facts, double label, double share)
    {
        var word = facts.Select(f => TextLines.LongestWord(f.Value, f.Face, SheetStyle.Body)).DefaultIfEmpty(0).Max();
        var line = facts.Select(f => Measure(f.Value, f.Face)).DefaultIfEmpty(0).Max();

        // One overlong word is broken rather than left to starve the other columns.
        return (Math.Min(label + word, share), label + line, true);
    }

    private Cell Lay(SheetFact fact, int column) =>
        new(
            TextLines.Break(fact.Label, PrintFace.Regular, SheetStyle.Body, _labelWidths[column]),
            TextLines.Break(fact.Value, fact.Face, SheetStyle.Body, _widths[column] - _labelWidths[column] - LabelGap),
            fact.Face);

    private sealed record Cell(IReadOnlyList<string> Label, IReadOnlyList<string> Value, PrintFace Face);
}
