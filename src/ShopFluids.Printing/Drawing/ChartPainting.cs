using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Drawing;

/// <summary>Paints a chart in black ink: limits differ by stroke, readings by shape, the target is a grey band.</summary>
internal static class ChartPainting
{
    private const double TargetGrey = 0.9;
    private static readonly double[] WarningDashes = [5.5, 2.6];

    public static void Paint(this PrintPage page, ChartDrawing chart, double x, double y)
    {
        foreach (var item in chart.Items)
        {
            Paint(page, item, x, y);
        }
    }

    private static void Paint(PrintPage page, ChartItem item, double x, double y)
    {
        switch (item)
        {
            case ChartLine line:
                Stroke(page, PagePath.Line(x + line.X1, y + line.Y1, x + line.X2, y + line.Y2), line.Class);
                break;
            case ChartPolyline line:
                Stroke(page, PagePath.Open([.. line.Points.Select(p => (x + p.X, y + p.Y))]), line.Class);
                break;
            case ChartRect box:
                page.Fill(PagePath.Rectangle(x + box.X, y + box.Y, box.Width, box.Height), box.Class == ChartClass.Target ? TargetGrey : 0);
                break;
            case ChartPolygon shape:
                page.Fill(PagePath.Closed([.. shape.Points.Select(p => (x + p.X, y + p.Y))]));
                break;
            case ChartCircle dot:
                page.Dot(x + dot.X, y + dot.Y, dot.Radius * 1.3, grey: 1);
                page.Dot(x + dot.X, y + dot.Y, dot.Radius);
                break;
            case ChartMark mark:
                MarkDrawing.Draw(page, mark.Mark, x + mark.X, y + mark.Y, mark.Size);
                break;
            case ChartText text:
                Text(page, text, x, y);
                break;
            default:
                throw new NotSupportedException($"A {item.GetType().Name} has no way onto paper.");
        }
    }

    private static void Stroke(PrintPage page, PagePath path, string name)
    {
        var (width, grey) = name switch
        {
            ChartClass.Grid => (0.5, 0.65),
            ChartClass.Action => (1.4, 0.0),
            ChartClass.Warning or ChartClass.Superseded => (1.0, 0.0),
            ChartClass.Line => (0.9, 0.0),
            _ => (0.6, 0.0),
        };
        page.Stroke(path, width, grey, name == ChartClass.Warning ? WarningDashes : null);
    }

    private static void Text(PrintPage page, ChartText text, double x, double y)
    {
        var face = text.Class is ChartClass.Title or ChartClass.LimitText ? PrintFace.Bold : PrintFace.Regular;
        var width = PrintFonts.Measure(text.Text, face, text.Size);
        var shift = text.Anchor switch { ChartAnchor.Start => 0, ChartAnchor.Middle => width / 2, _ => width };
        page.Text(x + text.X - shift, y + text.Y, text.Text, face, text.Size);
    }
}
