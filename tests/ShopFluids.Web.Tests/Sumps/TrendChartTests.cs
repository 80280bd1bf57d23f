using System.Globalization;
using Bunit;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Fonts;
using ShopFluids.Rules;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Sumps;
using Xunit;

namespace ShopFluids.Web.Tests.Sumps;

public sealed class TrendChartTests : BunitContext
{
    private static readonly ShopFormat Format = new(CultureInfo.GetCultureInfo("en-GB"), UnitSystem.Metric, new ShopCalendar(TimeZoneInfo.Utc, 6, new HashSet<DayOfWeek>(), new HashSet<DateOnly>()));

    public TrendChartTests() => Services.AddSingleton(new ShopClock(new FakeTimeProvider(new DateTimeOffset(Some.Start))));

    [Fact]
    public void Render_Readings_NamesTheDrawingAndDescribesIt()
    {
        var chart = Draw(Point(0, 8.2, Verdict.InRange), Point(3, 6.4, Verdict.Warning, Direction.Low), Point(5, 12.4, Verdict.Action, Direction.High, isSuperseded: true));

        var svg = chart.Find("svg");
        Assert.Equal("img", svg.GetAttribute("role"));
        var ids = (svg.GetAttribute("aria-labelledby") ?? "").Split(' ');
        Assert.Equal("Concentration, % v/v", chart.Find($"#{ids[0]}").TextContent);
        Assert.Equal("2 readings from 20 Feb 2026 to 23 Feb 2026: lowest 6.4, highest 8.2, latest 6.4, Warning, low.", chart.Find($"#{ids[1]}").TextContent);
    }

    [Fact]
    public void Render_Readings_GivesEveryValueInATableNewestFirst()
    {
        var chart = Draw(Point(0, 8.2, Verdict.InRange), Point(5, 12.4, Verdict.Action, Direction.High, isSuperseded: true));

        Assert.Equal(Texts.Sump_ShowAsTable, chart.Find("details summary").TextContent);
        var rows = chart.FindAll("tbody tr").Select(r => string.Join('|', r.Children.Select(c => c.TextContent.Trim())));
        Assert.Equal(["25 Feb 2026, 07:00|12.4|superseded", "20 Feb 2026, 07:00|8.2|In range"], rows);
        Assert.Equal(3, chart.FindAll("thead th[scope=col]").Count);
    }

    [Fact]
    public void Render_WarningAndSuperseded_DrawsMarkAndCross()
    {
        var chart = Draw(Point(0, 8.2, Verdict.InRange), Point(3, 6.4, Verdict.Warning, Direction.Low), Point(5, 9.0, Verdict.InRange, isSuperseded: true));

        Assert.Equal("#warn-lo", chart.Find("use").GetAttribute("href"));
        Assert.Equal(2, chart.FindAll("line.c-old").Count);
        Assert.Single(chart.FindAll("circle.c-dot"));
        Assert.Contains(chart.FindAll("text"), t => t.TextContent == "warning 6.5");
    }

    [Fact]
    public void Render_GermanCulture_KeepsPointsInCoordinates()
    {
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");

        var chart = Draw(Point(0, 8.25, Verdict.InRange), Point(3, 7.13, Verdict.InRange));

        Assert.All(chart.FindAll("line"), l => Assert.DoesNotContain(',', l.GetAttribute("y1") ?? ""));
        Assert.All((chart.Find("polyline").GetAttribute("points") ?? "").Split(' '), p => Assert.Equal(2, p.Split(',').Length));
    }

    [Fact]
    public void Render_NoReadings_SaysSo()
    {
        var chart = Draw();

        Assert.Equal(Texts.Sump_ChartEmpty, chart.Find("desc").TextContent);
        Assert.Empty(chart.FindAll("tbody tr"));
    }

    private IRenderedComponent<TrendChart> Draw(params TrendPoint[] points)
    {
        var trend = new Trend(
            "Concentration, % v/v", points, [], [new(Some.Start.AddDays(-20), Some.Start.AddDays(1), 5.5, 6.5, 7, 9, 9.5, 10.5)], Format.Number, new(null, null, 2, 1));
        var axis = new TrendTimeAxis(Some.Start.AddDays(-12), Some.Start, null, d => d.ToDateTime(TimeOnly.MinValue, DateTimeKind.Utc), DateOnly.FromDateTime, Format.ShortDay);
        var drawing = TrendChartLayout.Draw(
            new TrendChartModel(trend, axis, new("now", "warning {0}", "action {0}", "no readings"), ShowsDays: true), 900, 180, PrintFonts.MeasureChartText);
        return Render<TrendChart>(p => p.Add(c => c.Trend, trend).Add(c => c.Drawing, drawing).Add(c => c.Format, Format));
    }

    private static TrendPoint Point(int day, double value, Verdict verdict, Direction direction = Direction.None, bool isSuperseded = false) =>
        new(Some.Start.AddDays(day - 10), value, verdict, direction, isSuperseded);
}
