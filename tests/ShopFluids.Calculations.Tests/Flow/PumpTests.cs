using FsCheck.Xunit;
using MathNet.Numerics.RootFinding;
using ShopFluids.Calculations.Flow;
using Xunit;

namespace ShopFluids.Calculations.Tests.Flow;

public sealed class PumpTests
{
    private static readonly PumpCurve Pump = new([At(0, 12), At(40, 10), At(80, 6), At(100, 2)]);

    [Theory]
    [InlineData(0, 12)]
    [InlineData(20, 11)]
    [InlineData(40, 10)]
    [InlineData(60, 8)]
    [InlineData(100, 2)]
    public void HeadMetresAt_OnTheLines_IsBetweenThePoints(double litres, double head) =>
        Assert.Equal(head, Pump.HeadMetresAt(FlowRate.FromLitresPerMinute(litres)), 12);

    // The worked example of docs/calculations/flow.md: 3 m lift and 5 m of loss at 60 L/min meet the pump at 60 L/min and 8 m.
    [Fact]
    public void PointWith_LiftAndLoss_MatchesTheWorkedExample()
    {
        var system = new PumpSystem(3, FlowRate.FromLitresPerMinute(60), 8);
        var point = system.PointWith(Pump);
        Assert.Equal(SystemPointState.Found, point.State);
        Assert.Equal(60, point.Flow.LitresPerMinute, 9);
        Assert.Equal(8, point.HeadMetres, 9);
        Assert.Equal(3, system.HeadMetresAt(default), 12);
        Assert.Equal(4.25, system.HeadMetresAt(FlowRate.FromLitresPerMinute(30)), 12);
        Assert.Equal(23, system.HeadMetresAt(FlowRate.FromLitresPerMinute(120)), 12);
    }

    [Theory]
    [InlineData(12, SystemPointState.NoFlow, 0, 12)]
    [InlineData(15, SystemPointState.NoFlow, 0, 12)]
    [InlineData(1.99, SystemPointState.BeyondCurve, 100, 2)]
    [InlineData(2, SystemPointState.Found, 100, 2)]
    public void PointWith_LiftAlone_MeetsOnlyOnTheCurve(double lift, SystemPointState state, double litres, double head)
    {
        var point = new PumpSystem(lift, FlowRate.FromLitresPerMinute(10), lift).PointWith(Pump);
        Assert.Equal(state, point.State);
        Assert.Equal(litres, point.Flow.LitresPerMinute, 9);
        Assert.Equal(head, point.HeadMetres, 9);
    }

    [Property(MaxTest = 5000, Replay = "20260101,20260103")]
    public void PointWith_BrentAsOracle_Agrees(byte lift, byte loss)
    {
        var system = new PumpSystem(lift * 11.9 / 255, FlowRate.FromLitresPerMinute(50), (lift * 11.9 / 255) + 1 + loss);
        var point = system.PointWith(Pump);
        if (point.State is SystemPointState.BeyondCurve)
        {
            Assert.True(system.HeadMetresAt(Pump.LargestFlow) < 2);
            return;
        }

        var brent = Brent.FindRoot(
            q => system.HeadMetresAt(FlowRate.FromLitresPerMinute(q)) - Pump.HeadMetresAt(FlowRate.FromLitresPerMinute(q)), 0, 100, 1e-12, 200);
        Assert.Equal(brent, point.Flow.LitresPerMinute, 6);
        Assert.Equal(system.HeadMetresAt(point.Flow), point.HeadMetres, 6);
    }

    [Fact]
    public void Curve_Equality_IsByPoints()
    {
        var same = new PumpCurve([.. Pump.Points]);
        Assert.Equal(Pump, same);
        Assert.Equal(Pump.GetHashCode(), same.GetHashCode());
        Assert.NotEqual(Pump, new PumpCurve([At(0, 12), At(40, 10)]));
        Assert.NotEqual(Pump.GetHashCode(), new PumpCurve([At(0, 12), At(40, 10)]).GetHashCode());
        Assert.False(Pump.Equals((PumpCurve?)null));
        Assert.Equal((12, 100), (Pump.ShutOffHeadMetres, Pump.LargestFlow.LitresPerMinute));
    }

    [Fact]
    public void Curve_NotFallingFromZero_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("Points", () => new PumpCurve([]));
        Assert.Throws<ArgumentOutOfRangeException>("Points", () => new PumpCurve([At(0, 12)]));
        Assert.Throws<ArgumentOutOfRangeException>("Points", () => new PumpCurve([At(1, 12), At(2, 1)]));
        Assert.Throws<ArgumentOutOfRangeException>("Points", () => new PumpCurve([At(0, 12), At(0, 1)]));
        Assert.Throws<ArgumentOutOfRangeException>("Points", () => new PumpCurve([At(0, 12), At(1, 12)]));
        Assert.Throws<ArgumentOutOfRangeException>("Points", () => new PumpCurve([At(0, 20_001), At(1, 12)]));
        Assert.Throws<ArgumentOutOfRangeException>("Points", () => new PumpCurve([At(0, 1), At(1, -1)]));
        Assert.Throws<ArgumentOutOfRangeException>("Points", () => new PumpCurve([.. Enumerable.Range(0, 1001).Select(i => At(i, 2000 - i))]));
        Assert.Equal(1000, new PumpCurve([.. Enumerable.Range(0, 1000).Select(i => At(i, 2000 - i))]).Points.Count);
        Assert.Throws<ArgumentOutOfRangeException>("flow", () => Pump.HeadMetresAt(FlowRate.FromLitresPerMinute(100.1)));
    }

    [Fact]
    public void System_OutOfRange_IsRefusedByName()
    {
        var flow = FlowRate.FromLitresPerMinute(1);
        Assert.Throws<ArgumentOutOfRangeException>("StaticHeadMetres", () => new PumpSystem(-1, flow, 2));
        Assert.Throws<ArgumentOutOfRangeException>("KnownFlow", () => new PumpSystem(1, default, 2));
        Assert.Throws<ArgumentOutOfRangeException>("KnownHeadMetres", () => new PumpSystem(1, flow, 0.9));
        Assert.Throws<ArgumentOutOfRangeException>("KnownHeadMetres", () => new PumpSystem(1, flow, 20_001));
        Assert.Throws<ArgumentNullException>("pump", () => new PumpSystem(1, flow, 2).PointWith(null!));
    }

    private static PumpPoint At(double litres, double head) => new(FlowRate.FromLitresPerMinute(litres), head);
}
