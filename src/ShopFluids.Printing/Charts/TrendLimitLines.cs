using ShopFluids.Core.Sheets;

namespace ShopFluids.Printing.Charts;

/// <summary>The limits of a trend: a band for the target, lines for warning and action, named at the right end.</summary>
internal static class TrendLimitLines
{
    // Bold letters that reach below the line must not touch the ones above: the face's line is 1.2 of its size.
    private const double LineHeight = 1.25;

    public static IEnumerable<string> Labels(TrendChartModel model) => Last(model) is { } limits ? Lines(limits).Select(l => Label(model, l)) : [];

    public static IEnumerable<ChartItem> Bands(TrendChartModel model, TrendPlot plot)
    {
        foreach (var limits in Shown(model).Where(l => l.TargetLow is not null || l.TargetHigh is not null))
        {
            var (left, right) = (plot.X(limits.FromUtc), plot.X(limits.ToUtc));
            var top = limits.TargetHigh is { } high ? plot.Y(high) : plot.Top;
            var bottom = limits.TargetLow is { } low ? plot.Y(low) : plot.Bottom;
            yield return new ChartRect(ChartClass.Target, left, top, right - left, bottom - top);
        }
    }

    public static IEnumerable<ChartItem> Draw(TrendChartModel model, TrendPlot plot, TextMeasure measure, TrendChartSizes sizes)
    {
        if (Last(model) is not { } last)
        {
            yield break;
        }

        foreach (var limits in Shown(model))
        {
            var named = new List<double>();
            foreach (var line in Lines(limits))
            {
                yield return new ChartLine(line.Class, plot.X(limits.FromUtc), plot.Y(line.Value), plot.X(limits.ToUtc), plot.Y(line.Value));
                if (limits != last && !Lines(last).Contains(line) && Earlier(model, plot, limits, line, measure, sizes) is { } label
                    && named.TrueForAll(y => Math.Abs(y - label.Y) >= label.Size * LineHeight))
                {
                    // Of two that would cover each other the first is named; the other still has its line.
                    named.Add(label.Y);
                    yield return label;
                }
            }
        }

        foreach (var item in Named(model, plot, last, sizes))
        {
            yield return item;
        }
    }

    /// <summary>The value of a limit that no longer applies, small at the end of its line, if the line is long enough for it.</summary>
    private static ChartText? Earlier(TrendChartModel model, TrendPlot plot, TrendLimits limits, LimitLine line, TextMeasure measure, TrendChartSizes sizes)
    {
        var text = model.Trend.Format(line.Value, model.Trend.Range.Decimals);
        var size = sizes.Text * 0.9;
        var right = plot.X(limits.ToUtc) - (size * 0.4);
        var y = plot.Y(line.Value) + (line.IsHigh ? -size * 0.3 : size);
        var fits = right - measure(text, size, isBold: true) > plot.X(limits.FromUtc) && y <= plot.Bottom + (size * 0.4) && y - size >= plot.Top - (size * 0.5);
        return fits ? new ChartText(ChartClass.LimitText, right, y, text, ChartAnchor.End, size) : null;
    }

    private static IEnumerable<ChartItem> Named(TrendChartModel model, TrendPlot plot, TrendLimits last, TrendChartSizes sizes)
    {
        var lines = Lines(last).ToList();
        var wanted = lines.Select(l => plot.Y(l.Value)).ToList();
        var heights = LabelColumn.Spread(wanted, sizes.Text * LineHeight, plot.Top, plot.Bottom);
        for (var n = 0; n < lines.Count; n++)
        {
            var gap = sizes.Text * 0.6;
            if (Math.Abs(heights[n] - wanted[n]) > sizes.Text * 0.12)
            {
                yield return new ChartLine(ChartClass.Leader, plot.Right, wanted[n], plot.Right + gap, heights[n]);
            }

            yield return new ChartText(
                ChartClass.LimitText, plot.Right + (gap * 1.25), heights[n] + (sizes.Text * 0.34), Label(model, lines[n]), ChartAnchor.Start, sizes.Text);
        }
    }

    private static IEnumerable<TrendLimits> Shown(TrendChartModel model) =>
        model.Trend.Limits.Where(l => l.ToUtc > model.Axis.FromUtc && l.FromUtc < model.Axis.ToUtc);

    /// <summary>The limits at the right end of the axis, which are those that the labels name.</summary>
    private static TrendLimits? Last(TrendChartModel model) => Shown(model).MaxBy(l => l.ToUtc);

    private static IEnumerable<LimitLine> Lines(TrendLimits limits)
    {
        (string Class, double? Value, bool IsHigh)[] lines =
        [
            (ChartClass.Action, limits.ActionHigh, true), (ChartClass.Warning, limits.WarningHigh, true),
            (ChartClass.Warning, limits.WarningLow, false), (ChartClass.Action, limits.ActionLow, false),
        ];
        foreach (var (name, value, isHigh) in lines)
        {
            if (value is { } known)
            {
                yield return new LimitLine(name, known, isHigh);
            }
        }
    }

    private static string Label(TrendChartModel model, LimitLine line)
    {
        var words = line.Class == ChartClass.Action ? model.Words.ActionLimit : model.Words.WarningLimit;
        return words.Replace("{0}", model.Trend.Format(line.Value, model.Trend.Range.Decimals), StringComparison.Ordinal);
    }

    private sealed record LimitLine(string Class, double Value, bool IsHigh);
}
