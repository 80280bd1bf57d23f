using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.History;

/// <summary>The charts, one above the other on one time axis, with the key to their signs.</summary>
internal static class TrendsBlock
{
    private const double ChartHeight = 94;
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
        flow.Heading(Texts.Sheet_Trends, ChartHeight + days);
        for (var n = 0; n < trends.Charts.Count; n++)
        {
            flow.Need(ChartHeight + days);

            // The lowest chart of each page names the days: the last one, and one whose successor goes to the next page.
            var isLowest = n == trends.Charts.Count - 1 || ChartHeight + Between + ChartHeight + days > flow.Room;
            var height = ChartHeight + (isLowest ? days : 0);
            var model = new TrendChartModel(trends.Charts[n], trends.Axis, words, isLowest);
            flow.Page.Paint(TrendChartLayout.Draw(model, frame, flow.Width, height, PrintFonts.MeasureChartText, sizes), flow.Left, flow.Y);
            flow.Y += height + Between;
        }

        Key(flow);
        flow.EndBlock();
    }

    private static void Key(PageFlow flow)
    {
        string[] signs =
        [
            Texts.Sheet_LegendReading, Texts.Sheet_LegendMark, Texts.Sheet_LegendAddition, Texts.Sheet_LegendSuperseded,
            Texts.Sheet_LegendTarget, Texts.Sheet_LegendWarning, Texts.Sheet_LegendAction,
        ];
        flow.Need(SheetStyle.Small * SheetStyle.LineHeight);
        var x = flow.Left;
        foreach (var sign in signs)
        {
            var width = PrintFonts.Measure(sign, PrintFace.Regular, SheetStyle.Small);
            if (x > flow.Left && x + width > flow.Right)
            {
                flow.Y += SheetStyle.Small * SheetStyle.LineHeight;
                x = flow.Left;
            }

            flow.Page.Text(x, flow.Y + SheetStyle.Small, sign, PrintFace.Regular, SheetStyle.Small);
            x += width + (SheetStyle.Small * 1.9);
        }

        flow.Y += SheetStyle.Small * SheetStyle.LineHeight;
    }
}
