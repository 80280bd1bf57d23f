using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Layout;

/// <summary>How wide the columns of a table would be, in any size of type: every text is measured once, for widths grow with the size.</summary>
internal sealed class ColumnDemands
{
    /// <summary>Room for a mark before a text, in sizes of the type.</summary>
    public const double MarkRoom = 1.45;

    /// <summary>A box to tick has one size.</summary>
    public const double BoxSize = 9;

    private const double LongestKeptWord = 90;
    private const double LongestWhole = 110;
    private readonly Column[] _columns;

    public ColumnDemands(IReadOnlyList<TableColumn> columns, IReadOnlyList<TableRow> rows) =>
        _columns = [.. columns.Select((column, n) => Measure(column, rows.Select(r => r.Cells[n])))];

    /// <param name="scale">Of the usual sizes of type.</param>
    /// <param name="headShare">How much of a heading on one line a column wants: 1 for all of it.</param>
    /// <returns>Of each column the width of its longest word, that of its longest cell on one line, and whether it takes the rest.</returns>
    public IReadOnlyList<(double Least, double Wanted, bool TakesRest)> At(double scale, double headShare) => Array.ConvertAll(_columns, c => c.At(scale, headShare));

    private static Column Measure(TableColumn column, IEnumerable<TableCell> cells)
    {
        var (word, line, hasBox) = (0.0, 0.0, false);
        foreach (var cell in cells)
        {
            var (face, mark) = (cell.Face ?? column.Face, cell.Mark is null ? 0 : MarkRoom);
            hasBox |= cell.IsBox;
            word = cell.IsBox ? word : Math.Max(word, TextLines.LongestWord(cell.Text, face, size: 1) + mark);
            line = Math.Max(line, TextLines.LongestLine(cell.Text, face, size: 1) + mark);
        }

        return new(
            column,
            TextLines.LongestWord(column.Heading, PrintFace.Bold, size: 1),
            column.TakesRest ? 0 : PrintFonts.Measure(column.Heading, PrintFace.Bold, size: 1),
            word,
            line,
            hasBox ? BoxSize : 0);
    }

    /// <summary>Widths of a column in type of size 1.</summary>
    private sealed record Column(TableColumn Source, double HeadWord, double Head, double Word, double Line, double Box)
    {
        public (double Least, double Wanted, bool TakesRest) At(double scale, double headShare)
        {
            var (size, headSize) = (SheetStyle.Body * scale, SheetStyle.Small * scale);
            var least = Math.Max(HeadWord * headSize, Math.Max(Word * size, Box));
            var wanted = Math.Max(Math.Max(HeadWord, Head * headShare) * headSize, Line * size);

            // One overlong word (a pasted address) must not starve the other columns: past this it is broken.
            least = Source.IsWhole ? Math.Min(Math.Max(least, wanted), LongestWhole) : Math.Min(least, LongestKeptWord);
            return (least, Math.Max(wanted, least), Source.TakesRest);
        }
    }
}
