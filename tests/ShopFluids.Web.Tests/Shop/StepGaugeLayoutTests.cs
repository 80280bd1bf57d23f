using System.Globalization;
using ShopFluids.Core.Rounds;
using ShopFluids.Web.Components.Shared;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

public sealed class StepGaugeLayoutTests
{
    // Action 5.5 and 10.5, hence a scale from 4.5 to 11.5: seven percent over 432 of the drawing.
    private static readonly GaugeLimits Full = new(5.5m, 6.5m, 7, 9, 9.5m, 10.5m);

    [Theory]
    [InlineData(8.0, 220)]
    [InlineData(4.5, 4)]
    [InlineData(11.5, 436)]
    [InlineData(7.0, 158.3)]
    public void Of_ValueOnScale_StandsInProportion(double value, double x)
    {
        Assert.Equal(x, Assert.NotNull(Layout(Full, (decimal)value, null).NowX), 0.05);
    }

    [Theory]
    [InlineData(0, StepGaugeLayout.Left)]
    [InlineData(12.6, StepGaugeLayout.Right)]
    public void Of_ValueOffScale_SitsAtTheEnd(double value, double x)
    {
        var layout = Layout(Full, (decimal)value, (decimal)value);

        Assert.Equal(x, layout.NowX);
        Assert.Equal(x, layout.LastX);
    }

    [Fact]
    public void Of_AllLimits_TheTallerTheBetter()
    {
        var steps = Layout(Full, null, null).Steps;

        Assert.Equal(["g-w", "g-w", "g-r", "g-t"], steps.Select(s => s.CssClass));
        Assert.Equal([7.0, 7.0, 13.0, 21.0], steps.Select(s => s.Height));
        Assert.All(steps, s => Assert.Equal(StepGaugeLayout.MiddleY, s.Y + (s.Height / 2), 6));
    }

    [Fact]
    public void Of_OnlyAnUpperLimit_BeginsAtZeroAndIsGoodFromThere()
    {
        var layout = Layout(new GaugeLimits(null, null, null, null, 20, 40), 0, null);

        var range = Assert.Single(layout.Steps, s => s.CssClass == "g-r");
        Assert.Equal(StepGaugeLayout.Left, range.X);
        Assert.Equal(StepGaugeLayout.Left, layout.NowX);
        Assert.DoesNotContain(layout.Steps, s => s.CssClass == "g-t");
    }

    // A level's full mark and its upper warning may lie 8 mm apart: both numbers stand there, moved apart in their order.
    [Fact]
    public void Of_LimitsThatLieClose_LabelsAllAndMovesThemApart()
    {
        var labels = Layout(new GaugeLimits(80, 120, null, 340, 348, null), null, null).Labels;

        Assert.Equal([340m, 120m, 348m, 80m], labels.Select(l => l.Value));
        var row = labels.OrderBy(l => l.Value).ToList();
        Assert.All(row.Zip(row.Skip(1)), pair => Assert.True(pair.Second.X - pair.First.X >= 30));
        Assert.All(row, l => Assert.InRange(l.X, StepGaugeLayout.Left, StepGaugeLayout.Right));
    }

    [Fact]
    public void Of_LimitsFarApart_LabelsStandUnderThem()
    {
        var layout = Layout(new GaugeLimits(5.5m, null, 7, 9, null, 10.5m), 7, 9);

        Assert.Equal([7m, 9m, 5.5m, 10.5m], layout.Labels.Select(l => l.Value));
        Assert.Equal(Assert.NotNull(layout.NowX), layout.Labels[0].X, 6);
        Assert.Equal(Assert.NotNull(layout.LastX), layout.Labels[1].X, 6);
    }

    [Fact]
    public void Of_WarningIsTheTargetsEdge_IsLabelledOnce() =>
        Assert.Equal([7m, 9m, 5m, 11m], Layout(new GaugeLimits(5, 7, 7, 9, 9, 11), null, null).Labels.Select(l => l.Value));

    [Fact]
    public void Of_OneLimitAlone_StillHasAScale()
    {
        var layout = Layout(new GaugeLimits(null, 8, null, null, null, null), 8, null);

        Assert.All(layout.Steps, s => Assert.True(s.Width >= 0));
        Assert.InRange(Assert.NotNull(layout.NowX), StepGaugeLayout.Left, StepGaugeLayout.Right);
    }

    // Large numbers in large writing: the edges of a narrow target must not read as one number.
    [Fact]
    public void Of_FewLargeNumbers_AreThoseOfTheTargetAndDoNotTouch()
    {
        var labels = StepGaugeLayout.Of(new GaugeLimits(600, 700, 1000, 1032, 1100, 1200), null, null, v => v.ToString("N0", CultureInfo.InvariantCulture), GaugeNumbers.Few).Labels;

        Assert.Equal(["1,000", "1,032"], labels.Select(l => l.Text));
        Assert.True(labels[1].X - labels[0].X >= 5 * 0.56 * 26);
        Assert.All(labels, l => Assert.InRange(l.X, StepGaugeLayout.Left, StepGaugeLayout.Right));
    }

    private static StepGaugeLayout Layout(GaugeLimits limits, decimal? now, decimal? last) => StepGaugeLayout.Of(limits, now, last, v => v.ToString(CultureInfo.InvariantCulture), GaugeNumbers.All);
}
