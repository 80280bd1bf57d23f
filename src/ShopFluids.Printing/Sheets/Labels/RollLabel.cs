using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.Labels;

/// <summary>A label of 62 by 42 mm: code, tag, machine, fluid and what to aim for.</summary>
internal static class RollLabel
{
    public static readonly double Width = PageEdges.Millimetres(62);
    public static readonly double Height = PageEdges.Millimetres(42);

    private const double TagSize = 27;
    private const double Body = 7.2;
    private const double Foot = 8;
    private static readonly double Edge = PageEdges.Millimetres(3);
    private static readonly double CodeSize = PageEdges.Millimetres(34);

    public static void Draw(PrintPage page, SumpLabel label, double x, double y)
    {
        // The code brings its own quiet zone, which may lie over the label's margin.
        new QrDrawing(label.Code, QrDrawing.ForLabels).Draw(page, x + PageEdges.Millimetres(0.5), y + PageEdges.Millimetres(0.5), CodeSize);
        var left = x + CodeSize + PageEdges.Millimetres(1);
        var width = x + Width - Edge - left;
        LabelText.Fitted(page, label.Tag, left, y + Edge + (TagSize * 0.8), width, PrintFace.Bold, TagSize);
        var top = LabelText.Lines(page, label.Machine, left, y + Edge + TagSize + 2, width, PrintFace.Bold, Body, 2) + 4;
        if (label.Fluid is { } fluid)
        {
            top = LabelText.Lines(page, fluid, left, top, width, PrintFace.Bold, Body, 2);
        }

        if (label is { Target: { } target, Scale: { } scale })
        {
            top = LabelText.Lines(page, target, left, top, width, PrintFace.Bold, Body, 1);
            LabelText.Fitted(page, SheetText.Fill(Texts.Label_Scale, scale), left, top + Body, width, PrintFace.Bold, Body);
        }

        var rule = y + Height - Edge - Foot - 4;
        page.Line(x + Edge, rule, x + Width - Edge, rule, SheetStyle.Rule);
        var says = Texts.Label_ScanReadFollow;
        page.Text(x + ((Width - PrintFonts.Measure(says, PrintFace.Bold, Foot)) / 2), y + Height - Edge, says, PrintFace.Bold, Foot);
    }
}
