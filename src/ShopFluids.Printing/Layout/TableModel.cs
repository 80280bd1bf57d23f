using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Layout;

/// <param name="Heading">Words of the head row; empty heads of all columns leave the head row out.</param>
/// <param name="IsRight">Numbers stand to the right.</param>
/// <param name="Face">Face of the cells.</param>
/// <param name="TakesRest">Room that no column needs goes to these.</param>
/// <param name="IsWhole">Dates, names and verdicts stay on one line unless they are very long.</param>
internal sealed record TableColumn(
    string Heading, bool IsRight = false, PrintFace Face = PrintFace.Regular, bool TakesRest = false, bool IsWhole = false);

/// <param name="Text">What the cell says; may hold line breaks.</param>
/// <param name="Mark">The verdict mark before the text.</param>
/// <param name="Face">A face other than the column's.</param>
internal sealed record TableCell(string Text, VerdictMark? Mark = null, PrintFace? Face = null)
{
    /// <summary>An empty box to tick by hand; its row is high enough to write in.</summary>
    public static TableCell Box { get; } = new("") { IsBox = true };

    public bool IsBox { get; private init; }

    public static implicit operator TableCell(string text) => FromString(text);

    public static TableCell FromString(string text) => new(text);
}

/// <param name="Cells">One for each column.</param>
/// <param name="StruckCells">How many cells from the left are struck through.</param>
internal sealed record TableRow(IReadOnlyList<TableCell> Cells, int StruckCells = 0);
