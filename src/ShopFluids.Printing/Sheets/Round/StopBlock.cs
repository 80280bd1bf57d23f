using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.Round;

/// <summary>One sump on the round sheet: its tag and code, a box for each value that is due, and where it was not read, why.</summary>
internal static class StopBlock
{
    private const int Columns = 3;
    private const double Tag = 22;
    private const double Label = 9.5;
    private const double Gap = 8;
    private const double Tick = 11;
    private static readonly double BoxHeight = PageEdges.Millimetres(11);
    private static readonly double CodeSize = PageEdges.Millimetres(22);

    private static double DangerHeight => Label * 1.5;

    private static double HeadHeight => Tag * 1.25;

    private static double CellHeight => (Label * 1.4) + BoxHeight + (SheetStyle.Small * SheetStyle.LineHeight * 2) + Gap;

    public static void Add(PageFlow flow, RoundSheetStop stop)
    {
        var rows = (stop.Boxes.Count + Columns - 1) / Columns;
        var dangers = stop.Dangers.SelectMany(d => TextLines.Break(d, PrintFace.Bold, Label, flow.Right - flow.Left - CodeSize - Gap)).ToList();
        var head = HeadHeight + (dangers.Count * DangerHeight);
        var height = Gap + Math.Max(head + (rows * CellHeight), CodeSize) + (SheetStyle.Body * 2);
        flow.Need(height);
        var (page, left, top) = (flow.Page, flow.Left, flow.Y + Gap);
        page.Line(left, flow.Y, flow.Right, flow.Y, SheetStyle.ThickRule);
        new QrDrawing(stop.Code).Draw(page, flow.Right - CodeSize + 4, top - 4, CodeSize);

        page.Text(left, top + (Tag * 0.85), stop.Tag, PrintFace.Bold, Tag);
        var x = left + PrintFonts.Measure(stop.Tag, PrintFace.Bold, Tag) + Gap;
        page.Text(x, top + (Tag * 0.85), stop.Late is { } late ? $"{stop.Where} · {late}" : stop.Where, PrintFace.Regular, Label);

        for (var n = 0; n < dangers.Count; n++)
        {
            page.Text(left, top + HeadHeight + (n * DangerHeight) + (Label * 0.6), dangers[n], PrintFace.Bold, Label);
        }

        var width = (flow.Right - left - CodeSize - (Gap * Columns)) / Columns;
        for (var n = 0; n < stop.Boxes.Count; n++)
        {
            Cell(page, stop.Boxes[n], left + (n % Columns * (width + Gap)), top + head + (n / Columns * CellHeight), width);
        }

        NotRead(page, left, flow.Y + height - (SheetStyle.Body * 0.8), flow.Right);
        flow.Y += height;
    }

    private static void Cell(PrintPage page, RoundSheetBox box, double x, double y, double width)
    {
        page.Text(x, y + Label, box.Label, PrintFace.Bold, Label);
        var top = y + (Label * 1.4);
        if (box.Words.Count > 0)
        {
            Words(page, box.Words, x, top, width);
        }
        else
        {
            page.Stroke(PagePath.Rectangle(x, top, width, BoxHeight), SheetStyle.Rule);
            page.TextRight(x + width - 4, top + BoxHeight - 5, box.Unit, PrintFace.Regular, Label);
        }

        var baseline = top + BoxHeight + (SheetStyle.Small * SheetStyle.LineHeight);
        foreach (var line in new[] { box.Range, box.Last }.OfType<string>())
        {
            page.Text(x, baseline, TextLines.Break(line, PrintFace.Regular, SheetStyle.Small, width)[0], PrintFace.Regular, SheetStyle.Small);
            baseline += SheetStyle.Small * SheetStyle.LineHeight;
        }
    }

    // Two columns of ticks: a ladder has four words.
    private static void Words(PrintPage page, IReadOnlyList<string> words, double x, double y, double width)
    {
        for (var n = 0; n < words.Count; n++)
        {
            var (left, top) = (x + (n % 2 * (width / 2)), y + (n / 2 * (BoxHeight / 2)));
            page.Stroke(PagePath.Rectangle(left, top, Tick, Tick), SheetStyle.Rule);
            page.Text(left + Tick + 3, top + Tick - 2.5, words[n], PrintFace.Regular, SheetStyle.Body);
        }
    }

    private static void NotRead(PrintPage page, double left, double baseline, double right)
    {
        var x = left;
        page.Text(x, baseline, Texts.RoundSheet_Time, PrintFace.Bold, SheetStyle.Body);
        x += PrintFonts.Measure(Texts.RoundSheet_Time, PrintFace.Bold, SheetStyle.Body) + 4;
        page.Line(x, baseline + 1, x + 46, baseline + 1, SheetStyle.HairRule);
        x += 60;
        page.Text(x, baseline, Texts.RoundSheet_NotRead, PrintFace.Bold, SheetStyle.Body);
        x += PrintFonts.Measure(Texts.RoundSheet_NotRead, PrintFace.Bold, SheetStyle.Body) + 8;
        foreach (var reason in new[] { Texts.Skip_MachineRunning, Texts.Skip_CouldNotReach })
        {
            page.Stroke(PagePath.Rectangle(x, baseline - 8, 9, 9), SheetStyle.Rule);
            page.Text(x + 12, baseline, reason, PrintFace.Regular, SheetStyle.Body);
            x += 24 + PrintFonts.Measure(reason, PrintFace.Regular, SheetStyle.Body);
        }

        page.Line(x, baseline + 1, right - CodeSize, baseline + 1, SheetStyle.HairRule);
    }
}
