using ShopFluids.Core.Sheets;

namespace ShopFluids.Printing.Charts;

/// <summary>
/// Lays a trend out as lines, shapes and texts. Pure geometry: the web paints the result as SVG, the printer on paper, so both
/// show the same picture.
/// </summary>
public static class TrendChartLayout
{
    /// <summary>Draws charts that stand above one another and share their time axis; only the lowest names the days.</summary>
    public static IReadOnlyList<ChartDrawing> DrawStack(
        IReadOnlyList<Trend> trends, TrendTimeAxis axis, TrendChartWords words, double width, double height, TextMeasure measure, TrendChartSizes sizes)
    {
        var models = trends.Select((t, n) => new TrendChartModel(t, axis, words, ShowsDays: n == trends.Count - 1)).ToList();
        var frame = Frame(models, measure, sizes);
        return [.. models.Select(m => Draw(m, frame, width, height + (m.ShowsDays ? DaysHeight(sizes) : 0), measure, sizes))];
    }

    /// <summary>Draws one chart for itself, at the sizes of a screen.</summary>
    public static ChartDrawing Draw(TrendChartModel model, double width, double height, TextMeasure measure) =>
        Draw(model, Frame([model], measure, TrendChartSizes.Screen), width, height, measure, TrendChartSizes.Screen);

    /// <summary>The room that charts on one axis need beside their plots for the longest of their labels.</summary>
    public static TrendChartFrame Frame(IReadOnlyList<TrendChartModel> models, TextMeasure measure, TrendChartSizes sizes)
    {
        var ticks = models.SelectMany(m => Scale(m, sizes.Text * 8, sizes) is var s ? s.Ticks.Select(t => m.Trend.Format(t, s.Decimals)) : []);
        var limits = models.SelectMany(TrendLimitLines.Labels).Concat(models.Select(m => m.Words.Now));
        return new TrendChartFrame(
            Left: Longest(ticks, measure, sizes, isBold: false) + (sizes.Text * 1.2),
            Right: Longest(limits, measure, sizes, isBold: true) + (sizes.Text * 1.2));
    }

    /// <summary>Height of the row of day labels under the lowest chart.</summary>
    public static double DaysHeight(TrendChartSizes sizes) => sizes.Text * 1.7;

    public static ChartDrawing Draw(
        TrendChartModel model, TrendChartFrame frame, double width, double height, TextMeasure measure, TrendChartSizes sizes)
    {
        var top = (sizes.Title * 1.3) + (sizes.Text * 1.5);
        var bottom = height - (sizes.Text * 0.4) - (model.ShowsDays ? DaysHeight(sizes) : 0);
        var plot = new TrendPlot(model.Axis, Scale(model, bottom - top, sizes), frame.Left, top, width - frame.Right, bottom);

        var items = new List<ChartItem>();
        items.AddRange(TrendLimitLines.Bands(model, plot));
        items.AddRange(Days(model, plot, height, measure, sizes));
        items.AddRange(Values(model, plot, sizes));
        items.AddRange(TrendLimitLines.Draw(model, plot, measure, sizes));
        items.AddRange(Now(model, plot, measure, sizes));
        items.AddRange(TrendReadings.Draw(model, plot, sizes));
        items.Add(new ChartText(ChartClass.Title, frame.Left, sizes.Title, model.Trend.Title, ChartAnchor.Start, sizes.Title));
        return new ChartDrawing(width, height, items);
    }

    private static NiceScale Scale(TrendChartModel model, double height, TrendChartSizes sizes)
    {
        var (low, high) = ValueRange.Of(model.Trend, model.Axis);
        return NiceScale.Over(low, high, Math.Max(2, (int)(height / (sizes.Text * 1.9))));
    }

    private static IEnumerable<ChartItem> Days(TrendChartModel model, TrendPlot plot, double height, TextMeasure measure, TrendChartSizes sizes)
    {
        var axis = model.Axis;
        var widest = Longest([axis.DayLabel(axis.DayOf(axis.FromUtc)), axis.DayLabel(axis.DayOf(axis.ToUtc))], measure, sizes, isBold: false);
        foreach (var day in DayTicks.On(axis, plot.Width, (widest * 1.35) + sizes.Text))
        {
            var x = plot.X(axis.StartOfDayUtc(day));
            yield return new ChartLine(ChartClass.Grid, x, plot.Top, x, plot.Bottom);
            if (model.ShowsDays)
            {
                yield return new ChartText(ChartClass.AxisText, x, height - (sizes.Text * 0.4), axis.DayLabel(day), ChartAnchor.Middle, sizes.Text);
            }
        }
    }

    private static IEnumerable<ChartItem> Values(TrendChartModel model, TrendPlot plot, TrendChartSizes sizes)
    {
        yield return new ChartLine(ChartClass.Axis, plot.Left, plot.Top, plot.Left, plot.Bottom);
        if (ValueRange.IsEmpty(model.Trend, model.Axis))
        {
            yield break;
        }

        var scale = Scale(model, plot.Bottom - plot.Top, sizes);
        foreach (var tick in scale.Ticks)
        {
            var y = plot.Y(tick);
            yield return new ChartLine(ChartClass.Axis, plot.Left - (sizes.Text * 0.35), y, plot.Left, y);
            yield return new ChartText(
                ChartClass.AxisText, plot.Left - (sizes.Text * 0.7), y + (sizes.Text * 0.34), model.Trend.Format(tick, scale.Decimals), ChartAnchor.End, sizes.Text);
        }
    }

    private static IEnumerable<ChartItem> Now(TrendChartModel model, TrendPlot plot, TextMeasure measure, TrendChartSizes sizes)
    {
        if (model.Axis.NowUtc is not { } now || !plot.Shows(now))
        {
            yield break;
        }

        // The word stands in the row of the wedges, or a row higher where a wedge is in its way.
        var x = plot.X(now);
        var end = x + (sizes.Text * 0.4) + measure(model.Words.Now, sizes.Text, isBold: true);
        var isTaken = model.Trend.AdditionsUtc.Where(plot.Shows).Select(plot.X).Any(a => a > x - (sizes.Text * 0.2) && a < end + (sizes.Text * 0.6));
        var baseline = plot.Top - (sizes.Text * (isTaken ? 1.5 : 0.35));
        yield return new ChartLine(ChartClass.Now, x, baseline - (sizes.Text * 0.6), x, plot.Bottom);
        yield return new ChartText(ChartClass.LimitText, x + (sizes.Text * 0.4), baseline, model.Words.Now, ChartAnchor.Start, sizes.Text);
    }

    private static double Longest(IEnumerable<string> texts, TextMeasure measure, TrendChartSizes sizes, bool isBold) =>
        texts.Select(t => measure(t, sizes.Text, isBold)).DefaultIfEmpty(0).Max();
}
