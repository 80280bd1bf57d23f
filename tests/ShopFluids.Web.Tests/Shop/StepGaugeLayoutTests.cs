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
        Assert.Equal(x, Assert.NotNull(StepGaugeLayout.Of(Full, (decimal)value, null).NowX), 0.05);
    }

    [Theory]
    [InlineData(0, StepGaugeLayout.Left)]
    [InlineData(12.6, StepGaugeLayout.Right)]
    public void Of_ValueOffScale_SitsAtTheEnd(double value, double x)
    {
        var layout = StepGaugeLayout.Of(Full, (decimal)value, (decimal)value);

        Assert.Equal(x, layout.NowX);
        Assert.Equal(x, layout.LastX);
    }

    [Fact]
    public void Of_AllLimits_TheTallerTheBetter()
    {
        var steps = StepGaugeLayout.Of(Full, null, null).Steps;

        Assert.Equal(["g-w", "g-w", "g-r", "g-t"], steps.Select(s => s.CssClass));
        Assert.Equal([7.0, 7.0, 13.0, 21.0], steps.Select(s => s.Height));
        Assert.All(steps, s => Assert.Equal(StepGaugeLayout.MiddleY, s.Y + (s.Height / 2), 6));
    }

    [Fact]
    public void Of_OnlyAnUpperLimit_BeginsAtZeroAndIsGoodFromThere()
    {
        var layout = StepGaugeLayout.Of(new GaugeLimits(null, null, null, null, 20, 40), 0, null);

        var range = Assert.Single(layout.Steps, s => s.CssClass == "g-r");
        Assert.Equal(StepGaugeLayout.Left, range.X);
        Assert.Equal(StepGaugeLayout.Left, layout.NowX);
        Assert.DoesNotContain(layout.Steps, s => s.CssClass == "g-t");
    }

    [Fact]
    public void Of_LimitsThatLieClose_LabelsTheTargetAndLeavesOutWhatWouldTouchIt()
    {
        var layout = StepGaugeLayout.Of(new GaugeLimits(2, 6.95m, 7, 9, 9.05m, 14), null, null);

        Assert.Equal([7m, 9m, 2m, 14m], layout.Labels.Select(l => l.Value));
    }

    [Fact]
    public void Of_OneLimitAlone_StillHasAScale()
    {
        var layout = StepGaugeLayout.Of(new GaugeLimits(null, 8, null, null, null, null), 8, null);

        Assert.All(layout.Steps, s => Assert.True(s.Width >= 0));
        Assert.InRange(Assert.NotNull(layout.NowX), StepGaugeLayout.Left, StepGaugeLayout.Right);
    }
}
