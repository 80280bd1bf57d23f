using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.Labels;

/// <summary>Labels on their pages.</summary>
internal static class SumpLabelsDocument
{
    private const int Columns = 3;
    private const int Rows = 6;
    private const double CutGrey = 0.6;
    private static readonly double CutLength = PageEdges.Millimetres(3);

    public static PrintDocument LayOut(SumpLabels labels, LabelSize size, PaperSize paper)
    {
        IReadOnlyList<PrintPage> pages = size switch
        {
            LabelSize.Roll62 => [.. labels.Labels.Select(l => OnItsOwn(l, RollLabel.Width, RollLabel.Height, RollLabel.Draw))],
            LabelSize.A6 => [.. labels.Labels.Select(l => OnItsOwn(l, A6Label.Width, A6Label.Height, A6Label.Draw))],
            LabelSize.Sheet => [.. labels.Labels.Chunk(Columns * Rows).Select(c => OnASheet(c, PageEdges.Of(paper)))],
            _ => throw new ArgumentOutOfRangeException(nameof(size), size, "This size of label is not known."),
        };
        return new PrintDocument(pages, new(Texts.Label_Title, string.Join(", ", labels.Labels.Select(l => l.Tag)), labels.Shop, labels.Language, labels.PrintedAtUtc));
    }

    private static PrintPage OnItsOwn(SumpLabel label, double width, double height, Action<PrintPage, SumpLabel, double, double> draw)
    {
        var page = new PrintPage(width, height);
        draw(page, label, 0, 0);
        return page;
    }

    private static PrintPage OnASheet(SumpLabel[] labels, PageEdges edges)
    {
        var page = new PrintPage(edges.PaperWidth, edges.PaperHeight);
        var left = (edges.PaperWidth - (Columns * RollLabel.Width)) / 2;
        var top = (edges.PaperHeight - (Rows * RollLabel.Height)) / 2;
        for (var n = 0; n < labels.Length; n++)
        {
            RollLabel.Draw(page, labels[n], left + (n % Columns * RollLabel.Width), top + (n / Columns * RollLabel.Height));
        }

        // Marks in the margin only: a line through the labels would show where the knife slips.
        for (var column = 0; column <= Columns; column++)
        {
            var x = left + (column * RollLabel.Width);
            page.Line(x, top - CutLength - 2, x, top - 2, SheetStyle.HairRule, CutGrey);
            page.Line(x, top + (Rows * RollLabel.Height) + 2, x, top + (Rows * RollLabel.Height) + 2 + CutLength, SheetStyle.HairRule, CutGrey);
        }

        for (var row = 0; row <= Rows; row++)
        {
            var y = top + (row * RollLabel.Height);
            page.Line(left - CutLength - 2, y, left - 2, y, SheetStyle.HairRule, CutGrey);
            page.Line(left + (Columns * RollLabel.Width) + 2, y, left + (Columns * RollLabel.Width) + 2 + CutLength, y, SheetStyle.HairRule, CutGrey);
        }

        return page;
    }
}
