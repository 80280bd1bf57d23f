using ShopFluids.Rules;

namespace ShopFluids.Printing.Charts;

/// <summary>The readings of a trend: a line through those that stand, a dot or a verdict mark at each, a cross at superseded ones.</summary>
internal static class TrendReadings
{
    public static IEnumerable<ChartItem> Draw(TrendChartModel model, TrendPlot plot, TrendChartSizes sizes)
    {
        foreach (var addition in model.Trend.AdditionsUtc.Where(plot.Shows))
        {
            yield return Wedge(plot.X(addition), plot.Top - (sizes.Text * 0.15), sizes.Text * 0.48);
        }

        var shown = model.Trend.Points.Where(p => plot.Shows(p.AtUtc) && double.IsFinite(p.Value)).OrderBy(p => p.AtUtc).ToList();
        var standing = shown.Where(p => !p.IsSuperseded).ToList();
        if (standing.Count > 1)
        {
            yield return new ChartPolyline(ChartClass.Line, [.. standing.Select(p => new ChartPoint(plot.X(p.AtUtc), plot.Y(p.Value)))]);
        }

        // Many readings get smaller dots, so that the line stays visible between them.
        var radius = Math.Clamp(plot.Width / Math.Max(1, standing.Count) / 2.2, sizes.DotRadius * 0.4, sizes.DotRadius);
        foreach (var point in standing.Where(p => p.Verdict < Verdict.Warning))
        {
            yield return new ChartCircle(ChartClass.Dot, plot.X(point.AtUtc), plot.Y(point.Value), radius);
        }

        foreach (var point in shown.Where(p => p.IsSuperseded))
        {
            foreach (var stroke in Cross(plot.X(point.AtUtc), plot.Y(point.Value), sizes.DotRadius * 1.25))
            {
                yield return stroke;
            }
        }

        foreach (var point in standing.Where(p => p.Verdict >= Verdict.Warning))
        {
            yield return new ChartMark(ChartClass.Mark, plot.X(point.AtUtc), plot.Y(point.Value), sizes.Mark, VerdictMarks.Of(point.Verdict, point.Direction));
        }

        if (shown.Count == 0)
        {
            yield return new ChartText(
                ChartClass.AxisText, plot.Left + (sizes.Text * 0.7), ((plot.Top + plot.Bottom) / 2) + (sizes.Text * 0.34), model.Words.NoReadings, ChartAnchor.Start, sizes.Text);
        }
    }

    private static ChartPolygon Wedge(double x, double tip, double half) =>
        new(ChartClass.Addition, [new(x - half, tip - (half * 1.8)), new(x + half, tip - (half * 1.8)), new(x, tip)]);

    private static IEnumerable<ChartItem> Cross(double x, double y, double arm)
    {
        yield return new ChartLine(ChartClass.Superseded, x - arm, y - arm, x + arm, y + arm);
        yield return new ChartLine(ChartClass.Superseded, x - arm, y + arm, x + arm, y - arm);
    }
}
