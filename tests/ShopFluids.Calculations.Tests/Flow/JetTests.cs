using FsCheck.Xunit;
using ShopFluids.Calculations.Flow;
using Xunit;

namespace ShopFluids.Calculations.Tests.Flow;

public sealed class JetTests
{
    // The worked example of docs/calculations/flow.md: 2 bar before a 4 mm nozzle. v = √(2 × 200 000 / 1000) = 20 m/s.
    [Fact]
    public void Through_TwoBarFourMillimetres_MatchesTheWorkedExample()
    {
        Assert.Equal(20, Jet.MetresPerSecond(2, 1000), 9);
        Assert.Equal(0.8 * 20 * Math.PI * 0.002 * 0.002 * 60_000, Jet.Through(4, 2, 1000, 0.8).LitresPerMinute, 9);
        Assert.Equal(12.06, Jet.Through(4, 2, 1000, 0.8).LitresPerMinute, 2);
        Assert.Equal(2, Jet.PressureBar(4, Jet.Through(4, 2, 1000, 0.8), 1000, 0.8), 9);
        Assert.Equal(4, Jet.NozzleMm(Jet.Through(4, 2, 1000, 0.8), 2, 1000, 0.8), 9);
    }

    [Property(MaxTest = 100_000, Replay = "20260101,20260103")]
    public void PressureAndNozzle_OfAFlow_AreTheInverse(byte nozzle, ushort pressure, byte coefficient)
    {
        var (mm, bar, c) = (0.1 + (nozzle / 10.0), 0.01 + (pressure / 70.0), 0.3 + (0.7 * coefficient / 255));
        var flow = Jet.Through(mm, bar, 990, c);
        Assert.Equal(bar, Jet.PressureBar(mm, flow, 990, c), tolerance: 1e-9 * bar);
        Assert.Equal(mm, Jet.NozzleMm(flow, bar, 990, c), tolerance: 1e-9 * mm);
    }

    [Fact]
    public void Edges_AreAccepted()
    {
        Assert.Equal(0, Jet.MetresPerSecond(0, 500));
        Assert.Equal(0, Jet.NozzleMm(default, 0.001, 2000, 0.3));
        Assert.Equal(1000, Jet.PressureBar(0.05, Jet.Through(0.05, 1000, 1000, 1), 1000, 1), 6);
        Assert.Equal(0, Jet.PressureBar(500, default, 1000, 1));
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("pressureBar", () => Jet.MetresPerSecond(1000.1, 1000));
        Assert.Throws<ArgumentOutOfRangeException>("pressureBar", () => Jet.MetresPerSecond(-1, 1000));
        Assert.Throws<ArgumentOutOfRangeException>("densityKgPerCubicMetre", () => Jet.MetresPerSecond(1, 499));
        Assert.Throws<ArgumentOutOfRangeException>("densityKgPerCubicMetre", () => Jet.MetresPerSecond(1, 2001));
        Assert.Throws<ArgumentOutOfRangeException>("nozzleMm", () => Jet.Through(0.04, 1, 1000, 1));
        Assert.Throws<ArgumentOutOfRangeException>("nozzleMm", () => Jet.Through(501, 1, 1000, 1));
        Assert.Throws<ArgumentOutOfRangeException>("dischargeCoefficient", () => Jet.Through(1, 1, 1000, 0.29));
        Assert.Throws<ArgumentOutOfRangeException>("dischargeCoefficient", () => Jet.Through(1, 1, 1000, 1.01));
        Assert.Throws<ArgumentOutOfRangeException>("flow", () => Jet.PressureBar(0.05, FlowRate.FromLitresPerMinute(100), 1000, 1));
        Assert.Throws<ArgumentOutOfRangeException>("pressureBar", () => Jet.NozzleMm(default, 0.0009, 1000, 1));
        Assert.Throws<ArgumentOutOfRangeException>("dischargeCoefficient", () => Jet.NozzleMm(default, 1, 1000, 0));
    }
}
