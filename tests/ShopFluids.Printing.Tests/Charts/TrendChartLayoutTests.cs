using ShopFluids.Core.Sheets;
using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Tests.Sheets;
using ShopFluids.Rules;
using Xunit;

namespace ShopFluids.Printing.Tests.Charts;

public sealed class TrendChartLayoutTests
{
    [Fact]
    public void Draw_Limits_StandAtTheirValues()
    {
        var drawing = TrendSample.Draw(TrendSample.Trend([TrendSample.Point(3, 8)], [TrendSample.Limits()]));

        Assert.Equal([drawing.HeightOf(11), drawing.HeightOf(5)], drawing.All<ChartLine>(ChartClass.Action).Select(l => l.Y1), Close);
        Assert.Equal([drawing.HeightOf(10), drawing.HeightOf(6)], drawing.All<ChartLine>(ChartClass.Warning).Select(l => l.Y1), Close);
        var band = Assert.Single(drawing.All<ChartRect>(ChartClass.Target));
        Assert.Equal(drawing.HeightOf(9), band.Y, 6);
        Assert.Equal(drawing.HeightOf(7), band.Y + band.Height, 6);
    }

    [Fact]
    public void Draw_Limits_AreNamedAtTheRightEnd()
    {
        var drawing = TrendSample.Draw(TrendSample.Trend([], [TrendSample.Limits()]));

        var labels = drawing.All<ChartText>(ChartClass.LimitText);
        Assert.Equal(["action 11.0", "warning 10.0", "warning 6.0", "action 5.0"], labels.Select(l => l.Text));
        var end = drawing.All<ChartLine>(ChartClass.Action)[0].X2;
        Assert.All(labels, l => Assert.True(l.X > end && l.X + PrintFonts.MeasureChartText(l.Text, l.Size, isBold: true) <= TrendSample.Width));
    }

    [Fact]
    public void Draw_LimitsCloseTogether_LabelsDoNotCoverEachOther()
    {
        var close = new TrendLimits(TrendSample.From, TrendSample.To, ActionLow: 7.9, WarningLow: 8.0, WarningHigh: 8.1, ActionHigh: 8.2);

        var drawing = TrendSample.Draw(TrendSample.Trend([TrendSample.Point(1, 2), TrendSample.Point(2, 14)], [close]));

        var labels = drawing.All<ChartText>(ChartClass.LimitText);
        Assert.All(labels.Zip(labels.Skip(1)), pair => Assert.True(pair.Second.Y - pair.First.Y >= pair.First.Size * 1.24));
        Assert.NotEmpty(drawing.All<ChartLine>(ChartClass.Leader));
    }

    // pH: warning at 8.5 and action at 8.2 lie a few pixels apart on a wide scale, in limits that hold no longer too.
    [Fact]
    public void Draw_EarlierLimitsCloseTogether_AreNamedWithoutCoveringEachOther()
    {
        var earlier = new TrendLimits(TrendSample.From, TrendSample.From.AddDays(30), ActionLow: 8.2, WarningLow: 8.5, WarningHigh: 9.5, ActionHigh: 10);
        var now = new TrendLimits(TrendSample.From.AddDays(30), TrendSample.To, ActionLow: 8.0, WarningLow: 8.4, WarningHigh: 9.6, ActionHigh: 10.2);

        var drawing = TrendSample.Draw(TrendSample.Trend([TrendSample.Point(1, 2), TrendSample.Point(2, 14)], [earlier, now]));

        var old = drawing.All<ChartText>(ChartClass.LimitText).Where(t => t.Anchor == ChartAnchor.End).OrderBy(t => t.Y).ToList();
        Assert.NotEmpty(old);
        Assert.All(old.Zip(old.Skip(1)), pair => Assert.True(pair.Second.Y - pair.First.Y >= pair.First.Size));
    }

    [Fact]
    public void Draw_LimitsChange_ShowAStepAtTheInstantOfChange()
    {
        var drawing = TrendSample.Draw(TrendSample.Trend([], [TrendSample.Limits(0, 30), TrendSample.Limits(30, 60, low: 4, high: 12)]));

        var highs = drawing.All<ChartLine>(ChartClass.Action).Where(l => l.Y1 < TrendSample.Height / 2).OrderBy(l => l.X1).ToList();
        Assert.Equal(2, highs.Count);
        Assert.Equal(highs[0].X2, highs[1].X1, 6);
        Assert.Equal((highs[0].X1 + highs[1].X2) / 2, highs[0].X2, 6);
        Assert.True(highs[1].Y1 < highs[0].Y1);
        var labels = drawing.All<ChartText>(ChartClass.LimitText);
        Assert.Contains(labels, t => t.Text == "action 12.0");
        Assert.Contains(labels, t => t.Text == "11.0" && t.Anchor == ChartAnchor.End && t.X < highs[0].X2);
    }

    [Fact]
    public void Draw_LaterReading_StandsFurtherRight()
    {
        var drawing = TrendSample.Draw(TrendSample.Trend([.. Enumerable.Range(0, 60).Reverse().Select(d => TrendSample.Point(d + 0.5, 8 + Math.Sin(d)))]));

        var points = Assert.Single(drawing.All<ChartPolyline>(ChartClass.Line)).Points;
        Assert.Equal(60, points.Count);
        Assert.All(points.Zip(points.Skip(1)), pair => Assert.True(pair.Second.X > pair.First.X));
    }

    [Fact]
    public void Draw_HigherReading_StandsHigher()
    {
        var drawing = TrendSample.Draw(TrendSample.Trend([.. Enumerable.Range(0, 20).Select(d => TrendSample.Point(d, 5 + (d * 0.3)))]));

        var points = drawing.All<ChartPolyline>(ChartClass.Line)[0].Points;
        Assert.All(points.Zip(points.Skip(1)), pair => Assert.True(pair.Second.Y < pair.First.Y));
        Assert.Equal(drawing.HeightOf(5), points[0].Y, 6);
    }

    [Fact]
    public void Draw_NoReadings_SaysSoAndHasNoScale()
    {
        var drawing = TrendSample.Draw(TrendSample.Trend(), showsDays: false);

        Assert.Equal(["no readings"], drawing.All<ChartText>(ChartClass.AxisText).Select(t => t.Text));
        Assert.Empty(drawing.Items.OfType<ChartPolyline>());
    }

    [Fact]
    public void Draw_NoReadingsButLimits_ShowsTheLimits()
    {
        var drawing = TrendSample.Draw(TrendSample.Trend([], [TrendSample.Limits()]));

        Assert.Equal(2, drawing.All<ChartLine>(ChartClass.Warning).Count);
        Assert.Contains(drawing.All<ChartText>(ChartClass.AxisText), t => t.Text == "no readings");
    }

    [Fact]
    public void Draw_OneReading_IsADotWithoutALine()
    {
        var drawing = TrendSample.Draw(TrendSample.Trend([TrendSample.Point(30, 8)]));

        var dot = Assert.Single(drawing.All<ChartCircle>(ChartClass.Dot));
        Assert.Equal(drawing.HeightOf(8), dot.Y, 6);
        Assert.Empty(drawing.Items.OfType<ChartPolyline>());
    }

    [Fact]
    public void Draw_EqualReadings_LieOnOneLevelInsideThePlot()
    {
        var drawing = TrendSample.Draw(TrendSample.Trend([.. Enumerable.Range(0, 9).Select(d => TrendSample.Point(d, 8))]));

        var heights = drawing.All<ChartCircle>(ChartClass.Dot).Select(d => d.Y).Distinct().ToList();
        Assert.Single(heights);
        Assert.InRange(heights[0], 40, TrendSample.Height - 20);
    }

    [Theory]
    [InlineData(Verdict.Warning, Direction.Low, VerdictMark.WarningLow)]
    [InlineData(Verdict.Warning, Direction.High, VerdictMark.WarningHigh)]
    [InlineData(Verdict.Warning, Direction.None, VerdictMark.WarningHigh)]
    [InlineData(Verdict.Action, Direction.Low, VerdictMark.ActionLow)]
    [InlineData(Verdict.Action, Direction.High, VerdictMark.ActionHigh)]
    [InlineData(Verdict.Action, Direction.None, VerdictMark.Action)]
    public void Draw_ReadingOutOfRange_CarriesItsMark(Verdict verdict, Direction direction, VerdictMark expected)
    {
        var drawing = TrendSample.Draw(TrendSample.Trend([TrendSample.Point(1, 8), TrendSample.Point(9, 20, verdict, direction)], [TrendSample.Limits()]));

        var mark = Assert.Single(drawing.All<ChartMark>(ChartClass.Mark));
        Assert.Equal(expected, mark.Mark);
        Assert.Equal(drawing.HeightOf(20), mark.Y, 6);
        Assert.Single(drawing.All<ChartCircle>(ChartClass.Dot));
    }

    [Fact]
    public void Draw_SupersededReading_IsACrossThatIsNotJoinedAndDoesNotStretchTheScale()
    {
        var drawing = TrendSample.Draw(TrendSample.Trend([TrendSample.Point(1, 8), TrendSample.Point(5, 800, Verdict.Action, Direction.High, isSuperseded: true), TrendSample.Point(9, 8.2)]));

        Assert.Equal(2, drawing.All<ChartLine>(ChartClass.Superseded).Count);
        Assert.Equal(2, drawing.All<ChartPolyline>(ChartClass.Line)[0].Points.Count);
        Assert.Empty(drawing.Items.OfType<ChartMark>());
        Assert.DoesNotContain(drawing.All<ChartText>(ChartClass.AxisText), t => t.Text.StartsWith("800", StringComparison.Ordinal));
    }

    [Fact]
    public void Draw_Additions_AreWedgesAboveThePlot()
    {
        var drawing = TrendSample.Draw(TrendSample.Trend([TrendSample.Point(1, 8)], additions: [TrendSample.From.AddDays(10), TrendSample.From.AddDays(90)]));

        var wedge = Assert.Single(drawing.All<ChartPolygon>(ChartClass.Addition));
        var plotTop = drawing.All<ChartLine>(ChartClass.Axis)[0].Y1;
        Assert.All(wedge.Points, p => Assert.True(p.Y < plotTop));
    }

    [Fact]
    public void Draw_NowUnderAnAddition_LiftsTheWord()
    {
        var now = TrendSample.From.AddDays(50);

        var free = TrendSample.Draw(TrendSample.Trend([TrendSample.Point(1, 8)]), now);
        var taken = TrendSample.Draw(TrendSample.Trend([TrendSample.Point(1, 8)], additions: [now.AddHours(12)]), now);

        Assert.True(Word(taken).Y < Word(free).Y - 10);

        static ChartText Word(ChartDrawing drawing) => drawing.All<ChartText>(ChartClass.LimitText).Single(t => t.Text == "now");
    }

    [Fact]
    public void DrawStack_SeveralTrends_ShareTheTimeAxisAndNameTheDaysOnce()
    {
        Trend[] trends = [TrendSample.Trend([TrendSample.Point(3, 8)]), TrendSample.Trend([TrendSample.Point(3, 12345)], [TrendSample.Limits(low: 12000, high: 13000)])];

        var stack = TrendChartLayout.DrawStack(
            trends, SampleSheet.Axis(TrendSample.From, TrendSample.To, null), TrendSample.Words, 700, 120, PrintFonts.MeasureChartText, TrendChartSizes.Screen);

        Assert.Equal(stack[0].All<ChartLine>(ChartClass.Grid).Select(l => l.X1), stack[1].All<ChartLine>(ChartClass.Grid).Select(l => l.X1));
        Assert.Equal(stack[0].All<ChartCircle>(ChartClass.Dot)[0].X, stack[1].All<ChartCircle>(ChartClass.Dot)[0].X, 6);
        Assert.DoesNotContain(stack[0].All<ChartText>(ChartClass.AxisText), t => t.Anchor == ChartAnchor.Middle);
        Assert.Contains(stack[1].All<ChartText>(ChartClass.AxisText), t => t.Text == "2 Mar");
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Draw_AnyReadings_StayInsideTheDrawing(int seed)
    {
        var random = new Random(seed);
        var scale = Math.Pow(10, random.Next(-4, 7));
        var points = Enumerable.Range(0, 200).Select(_ => TrendSample.Point((random.NextDouble() * 100) - 20, (random.NextDouble() - 0.5) * scale)).ToList();

        var drawing = TrendSample.Draw(TrendSample.Trend(points, [TrendSample.Limits(-40, 200)]), TrendSample.From.AddDays(59));

        Assert.All(drawing.Coordinates(), at =>
        {
            Assert.InRange(at.X, 0, TrendSample.Width);
            Assert.InRange(at.Y, 0, TrendSample.Height);
        });
    }

    [Fact]
    public void Draw_PeriodOfNoLength_StillDraws()
    {
        var axis = SampleSheet.Axis(TrendSample.From, TrendSample.From, TrendSample.From);

        var drawing = TrendChartLayout.Draw(
            new TrendChartModel(TrendSample.Trend([TrendSample.Point(0, 8)]), axis, TrendSample.Words, ShowsDays: true), 700, 150, PrintFonts.MeasureChartText);

        Assert.Single(drawing.All<ChartCircle>(ChartClass.Dot));
        Assert.All(drawing.Coordinates(), at => Assert.True(double.IsFinite(at.X) && double.IsFinite(at.Y)));
    }

    private static bool Close(double one, double other) => Math.Abs(one - other) < 1e-6;
}
