using FsCheck.Xunit;
using ShopFluids.Calculations.Flow;
using Xunit;

namespace ShopFluids.Calculations.Tests.Flow;

/// <summary>
/// Manning's formula. Read: 8 in, n 0.013, slope 0.005 carry 0.854 ft³/s at 2.448 ft/s; 6 in, n 0.02, 5 % carry 0.82 ft³/s (both with the US
/// constant 1.486, so to three digits). Part-full ratios are computed.
/// </summary>
public sealed class ReturnLineTests
{
    private const double LitresPerMinutePerCubicFootPerSecond = 28.316846592 * 60;
    private static readonly ReturnLine EightInch = new(203.2, 0.005, 0.013);

    [Fact]
    public void FullCapacity_ReadExamples_Agree()
    {
        Assert.Equal(0.854, EightInch.FullCapacity.LitresPerMinute / LitresPerMinutePerCubicFootPerSecond, tolerance: 0.001);
        Assert.Equal(2.448, EightInch.FullMetresPerSecond / 0.3048, tolerance: 0.002);
        Assert.Equal(0.82, new ReturnLine(152.4, 0.05, 0.02).FullCapacity.LitresPerMinute / LitresPerMinutePerCubicFootPerSecond, tolerance: 0.06);
    }

    [Theory]
    [InlineData(0.25, 0.1370)]
    [InlineData(0.5, 0.5)]
    [InlineData(0.75, 0.9119)]
    [InlineData(0.938, 1.0757)]
    [InlineData(1, 1)]
    [InlineData(0, 0)]
    public void CapacityAt_PartFull_HasTheKnownRatio(double depth, double ratio) =>
        Assert.Equal(ratio, EightInch.CapacityAt(depth).LitresPerMinute / EightInch.FullCapacity.LitresPerMinute, tolerance: 6e-5);

    [Fact]
    public void SpeedAt_HalfFull_IsThatOfTheFullLine()
    {
        Assert.Equal(EightInch.FullMetresPerSecond, EightInch.SpeedAt(0.5), 9);
        Assert.Equal(0, EightInch.SpeedAt(0));
    }

    // The worked example of docs/calculations/flow.md.
    [Fact]
    public void Check_FiftyMillimetreReturn_MatchesTheWorkedExample()
    {
        var line = new ReturnLine(50, 0.02, 0.009);
        Assert.Equal(99.7, line.FullCapacity.LitresPerMinute, 1);
        var half = line.Check(FlowRate.FromLitresPerMinute(line.FullCapacity.LitresPerMinute / 2), 0.75);
        Assert.Equal(ReturnLineState.Free, half.State);
        Assert.Equal(0.5, half.DepthShare, 9);
        Assert.Equal(50, half.LoadPercent, 9);
        Assert.Equal(line.FullMetresPerSecond, half.MetresPerSecond, 9);
        var chokes = line.Check(FlowRate.FromLitresPerMinute(120), 0.75);
        Assert.Equal((ReturnLineState.Chokes, 1, line.FullMetresPerSecond), (chokes.State, chokes.DepthShare, chokes.MetresPerSecond));
        Assert.Equal(100 * 120 / line.FullCapacity.LitresPerMinute, chokes.LoadPercent, 9);
        Assert.Equal(line.FullCapacity, chokes.FullCapacity);
        Assert.Equal(ReturnLineState.NearlyFull, line.Check(FlowRate.FromLitresPerMinute(95), 0.75).State);
    }

    [Fact]
    public void Check_OnTheLimits_IsStillTheBetterState()
    {
        Assert.Equal(ReturnLineState.Free, EightInch.Check(EightInch.CapacityAt(0.75), 0.75).State);
        Assert.Equal(ReturnLineState.NearlyFull, EightInch.Check(EightInch.FullCapacity, 0.75).State);

        // At nine tenths a line would carry more than when full; what no full line carries chokes it.
        Assert.Equal(ReturnLineState.Chokes, EightInch.Check(EightInch.CapacityAt(0.9), 0.9).State);
        Assert.Equal((ReturnLineState.Free, 0, 0), EightInch.Check(default, 0.75) is { } dry ? (dry.State, dry.DepthShare, dry.MetresPerSecond) : default);
    }

    [Property(MaxTest = 5000, Replay = "20260101,20260103")]
    public void Check_AnyFlow_DepthGivesTheFlowBack(ushort share, byte diameter, byte slope)
    {
        var line = new ReturnLine(10 + diameter, 0.001 + (slope / 1000.0), 0.012);
        var flow = FlowRate.FromLitresPerMinute(line.FullCapacity.LitresPerMinute * share / ushort.MaxValue);
        var check = line.Check(flow, 0.75);
        Assert.InRange(check.DepthShare, 0, 0.938);
        Assert.Equal(flow.LitresPerMinute, line.CapacityAt(check.DepthShare).LitresPerMinute, tolerance: 1e-9 * line.FullCapacity.LitresPerMinute);
        Assert.Equal(check.DepthShare <= 0.75, check.State == ReturnLineState.Free);
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("InsideDiameterMm", () => new ReturnLine(4.9, 0.01, 0.01));
        Assert.Throws<ArgumentOutOfRangeException>("InsideDiameterMm", () => new ReturnLine(2001, 0.01, 0.01));
        Assert.Throws<ArgumentOutOfRangeException>("Slope", () => new ReturnLine(50, 0, 0.01));
        Assert.Throws<ArgumentOutOfRangeException>("Slope", () => new ReturnLine(50, 1.01, 0.01));
        Assert.Throws<ArgumentOutOfRangeException>("Roughness", () => new ReturnLine(50, 0.01, 0.0049));
        Assert.Throws<ArgumentOutOfRangeException>("Roughness", () => new ReturnLine(50, 0.01, 0.11));
        Assert.Throws<ArgumentOutOfRangeException>("levelOverDiameter", () => EightInch.SpeedAt(1.1));
        Assert.Throws<ArgumentOutOfRangeException>("levelOverDiameter", () => EightInch.CapacityAt(-0.1));
        Assert.Throws<ArgumentOutOfRangeException>("wantedDepthShare", () => EightInch.Check(default, 0.09));
        Assert.Throws<ArgumentOutOfRangeException>("wantedDepthShare", () => EightInch.Check(default, 0.91));
    }
}
