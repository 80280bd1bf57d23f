using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.History;

/// <summary>The charts, one above the other on one time axis, with the key to their signs.</summary>
internal static class TrendsBlock
{
    private const double ChartHeight = 94;
    private const double LeastChartHeight = 76;
    private const double Between = 3;

    public static void Add(PageFlow flow, HistorySheetTrends trends)
    {
        if (trends.Charts.Count == 0)
        {
            return;
        }

        var sizes = TrendChartSizes.Paper;
        var words = new TrendChartWords(Texts.Sheet_Now, Texts.Sheet_WarningAt, Texts.Sheet_ActionAt, Texts.Sheet_NoReadingsInChart);
        var days = TrendChartLayout.DaysHeight(sizes);
        var frame = TrendChartLayout.Frame([.. trends.Charts.Select(c => new TrendChartModel(c, trends.Axis, words, ShowsDays: false))], PrintFonts.MeasureChartText, sizes);
        var under = days + Between + KeyHeight(flow);
        flow.Heading(Texts.Sheet_Trends, LeastChartHeight + under);

        // A little lower is better than one chart alone on the next page.
        var fitting = ((flow.Room - under) / trends.Charts.Count) - Between;
        var chartHeight = fitting >= LeastChartHeight ? Math.Min(fitting, ChartHeight) : ChartHeight;
        for (var n = 0; n < trends.Charts.Count; n++)
        {
            flow.Need(chartHeight + under);

            // The lowest chart of each page names the days: the last one, and one whose successor goes to the next page.
            var isLowest = n == trends.Charts.Count - 1 || chartHeight + Between + chartHeight + under > flow.Room;
            var height = chartHeight + (isLowest ? days : 0);
            var model = new TrendChartModel(trends.Charts[n], trends.Axis, words, isLowest);
            flow.Page.Paint(TrendChartLayout.Draw(model, frame, flow.Width, height, PrintFonts.MeasureChartText, sizes), flow.Left, flow.Y);
            flow.Y += height + Between;
        }

        Key(flow);
        flow.EndBlock();
    }

    private static double KeyHeight(PageFlow flow) => KeyLines(flow).Count * SheetStyle.Small * SheetStyle.LineHeight;

    private static void Key(PageFlow flow)
    {
        foreach (var line in KeyLines(flow))
        {
            foreach (var (x, sign) in line)
            {
                flow.Page.Text(flow.Left + x, flow.Y + SheetStyle.Small, sign, PrintFace.Regular, SheetStyle.Small);
            }

            flow.Y += SheetStyle.Small * SheetStyle.LineHeight;
        }
    }

    private static List<List<(double X, string Sign)>> KeyLines(PageFlow flow)
    {
        string[] signs =
        [
            Texts.Sheet_LegendReading, Texts.Sheet_LegendMark, Texts.Sheet_LegendAddition, Texts.Sheet_LegendSuperseded,
            Texts.Sheet_LegendTarget, Texts.Sheet_LegendWarning, Texts.Sheet_LegendAction,
        ];
        var lines = new List<List<(double, string)>> { new() };
        var x = 0.0;
        foreach (var sign in signs)
        {
            var width = PrintFonts.Measure(sign, PrintFace.Regular, SheetStyle.Small);
            if (x > 0 && x + width > flow.Width)
            {
                lines.Add([]);
                x = 0;
            }

            lines[^1].Add((x, sign));
            x += width + (SheetStyle.Small * 1.9);
        }

        return lines;
    }
}
