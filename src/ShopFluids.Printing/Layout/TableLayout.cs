using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Layout;

/// <summary>A table with its widths and broken lines worked out: knows the height of every row and draws it anywhere.</summary>
internal sealed class TableLayout
{
    private const double Gap = 7;
    private const double PadTop = 1.5;
    private const double PadBottom = 1.8;
    private const double TightestScale = 0.8;
    private const double TightScale = 0.9;
    private const double EnoughForText = 110;
    private const double WrappedHead = 0.55;
    private const double BoxAir = 5;
    private readonly IReadOnlyList<TableColumn> _columns;
    private readonly IReadOnlyList<double> _widths;
    private readonly IReadOnlyList<IReadOnlyList<string>> _heads;
    private readonly IReadOnlyList<LaidRow> _rows;
    private readonly double _size;
    private readonly double _headSize;
    private readonly double _width;

    public TableLayout(IReadOnlyList<TableColumn> columns, IReadOnlyList<TableRow> rows, double width)
    {
        _columns = columns;
        _width = width;
        var available = width - (Gap * (columns.Count - 1));

        // A table with very many columns is set smaller before any word is broken.
        var measured = new ColumnDemands(columns, rows);
        var least = measured.At(scale: 1, headShare: 1).Sum(d => d.Least);
        var scale = Math.Clamp(available / Math.Max(least, 1), TightestScale, 1);

        // Heads stay on one line where that leaves the long columns enough; else they wrap first.
        var roomy = measured.At(scale, headShare: 1);
        var demands = roomy.Sum(d => d.TakesRest ? Math.Min(d.Wanted, EnoughForText) : d.Wanted) <= available ? roomy : measured.At(scale, WrappedHead);
        _size = SheetStyle.Body * scale;
        _headSize = SheetStyle.Small * scale;
        _widths = TableWidths.Share(demands, available);
        _heads = [.. columns.Select((c, n) => TextLines.Break(c.Heading, PrintFace.Bold, _headSize, _widths[n]))];
        _rows = [.. rows.Select(Lay)];
    }

    public int Count => _rows.Count;

    public double LineHeight => _size * SheetStyle.LineHeight;

    public double HeadHeight => _columns.All(c => c.Heading.Length == 0) ? 0 : (_heads.Max(h => h.Count) * _headSize * SheetStyle.LineHeight) + PadBottom + 1;

    public double Height => HeadHeight + Enumerable.Range(0, Count).Sum(RowHeight);

    public double RowHeight(int row) => (LineCount(row) * LineHeight) + PadTop + PadBottom + Air(row);

    public int LineCount(int row) => _rows[row].Cells.Max(c => c.Lines.Count);

    /// <summary>How many lines of a row fit into a height.</summary>
    public int LinesIn(double height) => (int)Math.Floor((height - PadTop - PadBottom) / LineHeight);

    public double DrawHead(PrintPage page, double x, double y)
    {
        if (HeadHeight <= 0)
        {
            return y;
        }

        var bottom = y + HeadHeight;
        foreach (var (column, left, right) in Places(x))
        {
            var lines = _heads[column];
            for (var n = 0; n < lines.Count; n++)
            {
                var baseline = bottom - PadBottom - 1.6 - ((lines.Count - 1 - n) * _headSize * SheetStyle.LineHeight);
                Put(page, column, left, right, baseline, lines[n], PrintFace.Bold, _headSize);
            }
        }

        page.Line(x, bottom, x + _width, bottom, SheetStyle.Rule);
        return bottom;
    }

    public double DrawRow(PrintPage page, double x, double y, int row) => DrawLines(page, x, y, row, 0, LineCount(row));

    /// <summary>Draws some lines of a row, for a row that is taller than a page.</summary>
    public double DrawLines(PrintPage page, double x, double y, int row, int first, int count)
    {
        var laid = _rows[row];
        foreach (var (column, left, right) in Places(x))
        {
            var cell = laid.Cells[column];
            var indent = Indent(cell.Source);
            if (cell.Source.IsBox && first == 0)
            {
                page.Stroke(PagePath.Rectangle(left, y + PadTop + 1, ColumnDemands.BoxSize, ColumnDemands.BoxSize), SheetStyle.Rule);
            }

            for (var n = first; n < Math.Min(first + count, cell.Lines.Count); n++)
            {
                var baseline = y + PadTop + ((n - first) * LineHeight) + (_size * 0.97);
                var start = Put(page, column, left + indent, right, baseline, cell.Lines[n], cell.Face, _size);
                if (n == 0 && cell.Source.Mark is { } mark)
                {
                    MarkDrawing.Draw(page, mark, start - (indent * 0.58), baseline - (_size * 0.33), _size * 1.05);
                }

                if (column < laid.Source.StruckCells && cell.Lines[n].Length > 0)
                {
                    var end = start + PrintFonts.Measure(cell.Lines[n], cell.Face, _size);
                    page.Line(start - indent, baseline - (_size * 0.26), end, baseline - (_size * 0.26), 0.6);
                }
            }
        }

        var bottom = y + PadTop + (count * LineHeight) + PadBottom + Air(row);
        page.Line(x, bottom, x + _width, bottom, SheetStyle.HairRule, SheetStyle.HairGrey);
        return bottom;
    }

    private double Air(int row) => _rows[row].Source.Cells.Any(c => c.IsBox) ? BoxAir : 0;

    private double Put(PrintPage page, int column, double left, double right, double baseline, string text, PrintFace face, double size)
    {
        var start = _columns[column].IsRight ? right - PrintFonts.Measure(text, face, size) : left;
        page.Text(start, baseline, text, face, size);
        return start;
    }

    private IEnumerable<(int Column, double Left, double Right)> Places(double x)
    {
        for (var n = 0; n < _columns.Count; n++)
        {
            yield return (n, x, x + _widths[n]);
            x += _widths[n] + Gap;
        }
    }

    private LaidRow Lay(TableRow row) =>
        new(row, [.. row.Cells.Select((cell, n) =>
        {
            var face = cell.Face ?? _columns[n].Face;
            return new LaidCell(cell, face, TextLines.Break(cell.Text, face, _size, _widths[n] - Indent(cell)));
        })]);

    private double Indent(TableCell cell) => cell.Mark is null ? 0 : _size * ColumnDemands.MarkRoom;

    /// <summary>
    /// How many of the columns fit into a width, from the left, beside a given number that must: those want their cells on one
    /// line, the others at least their words whole.
    /// </summary>
    public static int Fitting(
        IReadOnlyList<TableColumn> fixedColumns, IReadOnlyList<TableRow> fixedRows, IReadOnlyList<TableColumn> columns, IReadOnlyList<TableRow> rows, double width)
    {
        var taken = new ColumnDemands(fixedColumns, fixedRows).At(TightScale, headShare: 0).Sum(d => Math.Min(d.Wanted, EnoughForText) + Gap) - Gap;
        var count = 0;
        foreach (var demand in new ColumnDemands(columns, rows).At(TightScale, headShare: 0))
        {
            taken += demand.Least + Gap;
            if (taken > width)
            {
                break;
            }

            count++;
        }

        return count;
    }

    private sealed record LaidCell(TableCell Source, PrintFace Face, IReadOnlyList<string> Lines);

    private sealed record LaidRow(TableRow Source, IReadOnlyList<LaidCell> Cells);
}
