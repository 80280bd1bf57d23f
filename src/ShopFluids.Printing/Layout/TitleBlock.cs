using ShopFluids.Core.Wording;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Layout;

/// <summary>The frame at the head of every page of a sheet: whose it is, what it is, which page.</summary>
internal sealed class TitleBlock
{
    private const double Label = 7;
    private const double LargestValue = 10;
    private const double SmallestValue = 7.6;
    private const double LargestTag = 30;
    private const double PadX = 6.2;
    private const double PadY = 4;
    private const double LeastRow = 30;
    private static readonly double IdWidth = PageEdges.Millimetres(46);
    private readonly string _tag;
    private readonly (string Label, string Value)[] _fields;
    private readonly double[] _rows;
    private readonly double _left;
    private readonly double _width;

    /// <param name="tag">Printed large under the wordmark.</param>
    /// <param name="fields">Five fields, three in the upper row; the page is the sixth.</param>
    /// <param name="left">Left edge on the page.</param>
    /// <param name="width">Width of the frame.</param>
    public TitleBlock(string tag, IReadOnlyList<(string Label, string Value)> fields, double left, double width)
    {
        _tag = tag;
        _left = left;
        _width = width;
        _fields = [.. fields, (Texts.Sheet_Page, "")];

        // The rows grow for a long name; a name is never cut.
        _rows = [.. _fields.Chunk(3).Select(r => r.Max(f => Math.Max(LeastRow, (PadY * 2) + Label + (Fit(f.Value) is var v ? v.Lines.Count * v.Size * 1.2 : 0))))];
    }

    public double Height => _rows.Sum();

    private double CellWidth => (_width - IdWidth) / 3;

    public void Draw(PrintPage page, double top, int number, int of)
    {
        page.Stroke(PagePath.Rectangle(_left, top, _width, Height), SheetStyle.ThickRule);
        Wordmark.Draw(page, _left + PadX + 1, top + PadY + 1.5, 18);
        var tagSize = Math.Min(LargestTag, LargestTag * (IdWidth - (2 * PadX)) / PrintFonts.Measure(_tag, PrintFace.Bold, LargestTag));
        page.Text(_left + PadX, top + Height - PadY - 3.5, _tag, PrintFace.Bold, tagSize);
        for (var n = 0; n < _fields.Length; n++)
        {
            var x = _left + IdWidth + (n % 3 * CellWidth);
            var y = top + (n < 3 ? 0 : _rows[0]);
            var value = n == _fields.Length - 1 ? SheetText.Fill(Texts.Sheet_PageOf, PageNumber.Text(number), PageNumber.Text(of)) : _fields[n].Value;
            page.Line(x, y, x, y + _rows[n / 3], 0.7);
            Field(page, x + PadX, y + PadY, _fields[n].Label, value);
        }

        page.Line(_left + IdWidth, top + _rows[0], _left + _width, top + _rows[0], 0.7);
    }

    private void Field(PrintPage page, double x, double y, string label, string value)
    {
        page.Text(x, y + (Label * 0.85), label, PrintFace.Regular, Label);
        var (lines, size) = Fit(value);
        for (var n = 0; n < lines.Count; n++)
        {
            page.Text(x, y + Label + 1.5 + size + (n * size * 1.2), lines[n], PrintFace.Bold, size);
        }
    }

    private (IReadOnlyList<string> Lines, double Size) Fit(string value)
    {
        var room = CellWidth - (2 * PadX);
        var size = Math.Clamp(LargestValue * room / Math.Max(1, PrintFonts.Measure(value, PrintFace.Bold, LargestValue)), SmallestValue, LargestValue);
        return (TextLines.Break(value, PrintFace.Bold, size, room), size);
    }
}
