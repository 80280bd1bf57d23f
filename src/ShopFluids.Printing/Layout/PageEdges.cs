namespace ShopFluids.Printing.Layout;

/// <summary>A sheet of paper and the edges of what is printed on it, in points.</summary>
internal sealed record PageEdges(double PaperWidth, double PaperHeight, double Left, double Top, double Right, double Bottom)
{
    private const double PointsPerMillimetre = 72 / 25.4;
    private const double Margin = 11 * PointsPerMillimetre;
    private const double BottomMargin = 9 * PointsPerMillimetre;

    public static PageEdges Of(PaperSize paper)
    {
        var (width, height) = paper switch
        {
            PaperSize.A4 => (210 * PointsPerMillimetre, 297 * PointsPerMillimetre),
            PaperSize.Letter => (612.0, 792.0),
            _ => throw new ArgumentOutOfRangeException(nameof(paper), paper, "This paper is not known."),
        };
        return new PageEdges(width, height, Margin, Margin, width - Margin, height - BottomMargin);
    }

    public static double Millimetres(double length) => length * PointsPerMillimetre;
}
