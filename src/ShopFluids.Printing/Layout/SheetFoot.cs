using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Layout;

/// <summary>The foot of every page: which page this is, who printed it when, and what proves it.</summary>
internal sealed class SheetFoot(string tag, SheetOrigin origin)
{
    private const double Gap = 10;
    private const double FingerprintSize = 7.2;
    private const double TagSize = 9.5;
    private static readonly double CodeSize = PageEdges.Millimetres(23);

    // One for all pages: working a code out takes longer than drawing the page's text.
    private readonly QrDrawing _code = new(origin.Code);

    public static double Height => CodeSize + Gap;

    public void Draw(PrintPage page, double left, double right, double bottom, int number, int of)
    {
        var top = bottom - CodeSize;
        page.Line(left, top, right, top, SheetStyle.ThickRule);
        _code.Draw(page, right - CodeSize + 2, top + 3, CodeSize - 3);

        // Written from the bottom up, so that the last line stands level with the code however many lines there are.
        var width = right - left - CodeSize - Gap;
        var baseline = bottom - 4;
        baseline = Lines(page, left, baseline, width, SheetText.Fill(Texts.Sheet_ScanToCompare, origin.TimeZone));
        page.Text(left, baseline, Texts.Sheet_Fingerprint, PrintFace.Regular, SheetStyle.Small);
        var indent = PrintFonts.Measure(Texts.Sheet_Fingerprint + " ", PrintFace.Regular, SheetStyle.Small);
        page.Text(left + indent, baseline, Grouped(origin.Fingerprint), PrintFace.Mono, FingerprintSize);
        baseline -= SheetStyle.Small * SheetStyle.LineHeight;
        baseline = Lines(page, left, baseline, width, SheetText.Fill(Texts.Sheet_Printed, origin.PrintedAt, origin.PrintedBy, origin.RecordEntry));
        page.Text(left, baseline - 1, SheetText.Fill(Texts.Sheet_FootPage, tag, PageNumber.Text(number), PageNumber.Text(of)), PrintFace.Bold, TagSize);
    }

    /// <summary>Groups of four digits, and a dot after each four groups, so that two people can compare it aloud.</summary>
    internal static string Grouped(string fingerprint) =>
        string.Join(" · ", fingerprint.Chunk(16).Select(part => string.Join(' ', part.Chunk(4).Select(four => new string(four)))));

    private static double Lines(PrintPage page, double left, double baseline, double width, string text)
    {
        foreach (var line in TextLines.Break(text, PrintFace.Regular, SheetStyle.Small, width).Reverse())
        {
            page.Text(left, baseline, line, PrintFace.Regular, SheetStyle.Small);
            baseline -= SheetStyle.Small * SheetStyle.LineHeight;
        }

        return baseline;
    }
}
