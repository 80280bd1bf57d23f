using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.Labels;

/// <summary>A label of A6, upright: a tag that reads from two metres, the code, the marks of the sump, the aim on the refractometer's scale.</summary>
internal static class A6Label
{
    public static readonly double Width = PageEdges.Millimetres(105);
    public static readonly double Height = PageEdges.Millimetres(148);

    private const double TagSize = 52;
    private const double Body = 11;
    private const double Say = 17;
    private const double Small = 8.8;
    private static readonly double Edge = PageEdges.Millimetres(6);
    private static readonly double CodeSize = PageEdges.Millimetres(58);

    public static void Draw(PrintPage page, SumpLabel label, double x, double y)
    {
        var (left, right) = (x + Edge, x + Width - Edge);
        var width = right - left;

        // The tag takes at most three fifths; what is left belongs to the machine.
        LabelText.Fitted(page, label.Tag, left, y + Edge + (TagSize * 0.78), width * 0.58, PrintFace.Bold, TagSize);
        var side = left + (width * 0.6);
        LabelText.Fitted(page, label.Machine, side, y + Edge + (TagSize * 0.78) - (Body * 1.3), right - side, PrintFace.Bold, Body, fromRight: true);
        LabelText.Fitted(page, label.Area, side, y + Edge + (TagSize * 0.78), right - side, PrintFace.Bold, Body, fromRight: true);
        var top = y + Edge + TagSize;
        page.Line(left, top, right, top, SheetStyle.ThickRule);

        new QrDrawing(label.Code, QrDrawing.ForLabels).Draw(page, left - PageEdges.Millimetres(4), top, CodeSize);
        var beside = left + CodeSize - PageEdges.Millimetres(3);
        LabelText.Lines(page, Texts.Label_Say, beside, top + (CodeSize * 0.3), right - beside, PrintFace.Bold, Say, 5);
        top = Facts(page, label, left, top + CodeSize, right);
        if (label.Gauge is { } gauge && label.Scale is { } scale)
        {
            LabelGaugeDrawing.Draw(page, gauge, SheetText.Fill(Texts.Label_AimFor, scale), left, top + 6, width);
        }

        Foot(page, left, y + Height - Edge, right);
    }

    private static double Facts(PrintPage page, SumpLabel label, double left, double top, double right)
    {
        var names = new[] { (Texts.FieldName_Fluid, label.Fluid ?? Texts.Board_StandsEmpty), (Texts.FieldName_FullMark, label.FullMark), (Texts.Label_DoNotStart, label.LeastLevel) };
        var column = left + names.Max(n => PrintFonts.Measure(n.Item1, PrintFace.Regular, Body)) + 10;
        foreach (var (name, value) in names)
        {
            page.Text(left, top + Body, name, PrintFace.Regular, Body);
            LabelText.Fitted(page, value, column, top + Body, right - column, PrintFace.Bold, Body);
            top += Body * 1.36;
        }

        return top;
    }

    private static void Foot(PrintPage page, double left, double bottom, double right)
    {
        var markWidth = PageEdges.Millimetres(27);
        var lines = TextLines.Break(Texts.Label_Caution, PrintFace.Regular, Small, right - left - markWidth - 8);
        var top = bottom - (lines.Count * Small * 1.22);
        page.Line(left, top - 6, right, top - 6, SheetStyle.Rule);
        LabelText.Lines(page, Texts.Label_Caution, left, top - 2, right - left - markWidth - 8, PrintFace.Regular, Small, lines.Count);
        Wordmark.Draw(page, right - markWidth, top, PageEdges.Millimetres(4.9));
    }
}
