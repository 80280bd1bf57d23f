using ShopFluids.Printing.Charts;

namespace ShopFluids.Printing.Drawing;

/// <summary>The verdict marks in black, drawn on a grid of 24 by 24 like those of the screens.</summary>
internal static class MarkDrawing
{
    private const double Grid = 24;
    private static readonly PagePath Up = PagePath.Parse("M12 2.6L22.6 21.4H1.4Z");
    private static readonly PagePath Down = PagePath.Parse("M12 21.4L1.4 2.6H22.6Z");
    private static readonly PagePath UpBar = PagePath.Parse("M10.7 9H13.3V15H10.7ZM10.7 16.6H13.3V19.1H10.7Z");
    private static readonly PagePath DownBar = PagePath.Parse("M10.7 5H13.3V11H10.7ZM10.7 12.6H13.3V15.1H10.7Z");
    private static readonly PagePath Square = PagePath.Parse("M1.5 1.5H22.5V22.5H1.5Z");
    private static readonly PagePath Bar = PagePath.Parse("M6.5 12H17.5");
    private static readonly PagePath ChevronUp = PagePath.Parse("M6.5 14.5L12 8.5L17.5 14.5");
    private static readonly PagePath ChevronDown = PagePath.Parse("M6.5 9.5L12 15.5L17.5 9.5");
    private static readonly PagePath Dash = PagePath.Parse("M8 12H16");
    private static readonly PagePath GlassTop = PagePath.Parse("M5 2.6H19L12 12Z");
    private static readonly PagePath GlassSand = PagePath.Parse("M12 12L20.4 22.6H3.6Z");

    public static void Draw(PrintPage page, VerdictMark mark, double centreX, double centreY, double size)
    {
        var scale = size / Grid;
        switch (mark)
        {
            case VerdictMark.InRange:
                page.Stroke(PagePath.Circle(centreX, centreY, 9.4 * scale), 2.6 * scale);
                page.Dot(centreX, centreY, 4.4 * scale);
                break;
            case VerdictMark.WarningHigh:
                Triangle(Up, UpBar);
                break;
            case VerdictMark.WarningLow:
                Triangle(Down, DownBar);
                break;
            case VerdictMark.Action:
                Solid(Bar);
                break;
            case VerdictMark.ActionHigh:
                Solid(ChevronUp);
                break;
            case VerdictMark.ActionLow:
                Solid(ChevronDown);
                break;
            case VerdictMark.Late:
                page.Stroke(Placed(GlassTop), 2.2 * scale);
                page.Fill(Placed(GlassSand));
                break;
            case VerdictMark.NotMeasured:
                page.Stroke(PagePath.Circle(centreX, centreY, 9.6 * scale), 2.4 * scale, dashes: [3.6 * scale, 2.7 * scale]);
                page.Stroke(Placed(Dash), 2.4 * scale);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(mark), mark, "This mark has no drawing.");
        }

        void Triangle(PagePath outline, PagePath bar)
        {
            page.Fill(Placed(outline), grey: 1);
            page.Stroke(Placed(outline), 2 * scale);
            page.Fill(Placed(bar));
        }

        void Solid(PagePath cut)
        {
            page.Fill(Placed(Square));
            page.Stroke(Placed(cut), 3.2 * scale, grey: 1);
        }

        PagePath Placed(PagePath path) => path.Placed(centreX - (Grid / 2 * scale), centreY - (Grid / 2 * scale), scale);
    }
}
