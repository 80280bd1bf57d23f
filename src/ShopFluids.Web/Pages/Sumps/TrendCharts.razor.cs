using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Fonts;

namespace ShopFluids.Web.Pages.Sumps;

public sealed partial class TrendCharts
{
    private const double Width = 920;
    private const double Height = 168;
    private IReadOnlyList<ChartDrawing> _drawings = [];

    [Parameter, EditorRequired]
    public required HistorySheetTrends Trends { get; set; }

    [Parameter, EditorRequired]
    public required ShopFormat Format { get; set; }

    /// <summary>Null: this charge.</summary>
    [Parameter]
    public string? Title { get; set; }

    private string Lead => Format.Say(
        Texts.Sump_ChartLead,
        Format.ShortDay(Trends.Axis.FromUtc),
        Format.ShortDay(Trends.Axis.NowUtc ?? Trends.Axis.ToUtc),
        Format.Count(Trends.Charts.SelectMany(c => c.Points).Where(p => !p.IsSuperseded).Select(p => p.AtUtc).Distinct().Count()));

    // The printed face is the face of the page, so its widths hold here too.
    protected override void OnParametersSet() => _drawings = TrendChartLayout.DrawStack(
        Trends.Charts,
        Trends.Axis,
        new TrendChartWords(Texts.Sheet_Now, Texts.Sheet_WarningAt, Texts.Sheet_ActionAt, Texts.Sheet_NoReadingsInChart),
        Width,
        Height,
        PrintFonts.MeasureChartText,
        TrendChartSizes.Screen);
}
