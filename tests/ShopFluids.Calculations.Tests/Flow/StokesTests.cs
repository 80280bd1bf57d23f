using FsCheck.Xunit;
using ShopFluids.Calculations.Flow;
using Xunit;

namespace ShopFluids.Calculations.Tests.Flow;

/// <summary>Read: 60 µm at 0.9 in 0.9984 and 1.05 mPa·s give 0.2711 US gal/min per ft². Computed: tramp oil and steel.</summary>
public sealed class StokesTests
{
    [Fact]
    public void Speed_SeparatorExample_Agrees()
    {
        var speed = Stokes.Speed(60, 900, 998.4, 1.05);
        var loading = FlowRate.FromLitresPerSecond(speed.MillimetresPerSecond * 0.09290304).UsGallonsPerMinute;
        Assert.Equal(0.2711, loading, tolerance: 0.0005);
    }

    // The worked examples of docs/calculations/flow.md.
    [Fact]
    public void Speed_TrampOilAndSteel_MatchTheWorkedExamples()
    {
        var oil = Stokes.Speed(100, 880, 1000, 1);
        Assert.Equal(0.654, oil.MillimetresPerSecond, 3);
        Assert.Equal(0.0654, oil.Reynolds, 4);
        Assert.Equal(StokesRange.Holds, oil.Range);
        Assert.Equal(459, oil.SecondsOver(300)!.Value, 0);
        var steel = Stokes.Speed(20, 7850, 1000, 1);
        Assert.Equal(-1.493, steel.MillimetresPerSecond, 3);
        Assert.Equal(201, steel.SecondsOver(300)!.Value, 0);
        Assert.Equal(100, Stokes.SmallestMicrometres(300, 300 / oil.MillimetresPerSecond, 880, 1000, 1), 9);
        Assert.Equal(67.74, Stokes.SmallestMicrometres(63, 210, 880, 1000, 1), 2);
    }

    [Theory]
    [InlineData(115.2, StokesRange.Holds)]
    [InlineData(115.3, StokesRange.Approximate)]
    [InlineData(248.2, StokesRange.Approximate)]
    [InlineData(248.3, StokesRange.TooFast)]
    public void Speed_AroundTheReynoldsLimits_IsJudged(double micrometres, StokesRange range) =>
        Assert.Equal(range, Stokes.Speed(micrometres, 880, 1000, 1).Range);

    [Fact]
    public void Speed_NoDifferenceInDensity_NeverArrives()
    {
        var still = Stokes.Speed(100, 1000, 1000, 1);
        Assert.Equal((0, 0, StokesRange.Holds), (still.MillimetresPerSecond, still.Reynolds, still.Range));
        Assert.Null(still.SecondsOver(100));
    }

    [Property(MaxTest = 100_000, Replay = "20260101,20260103")]
    public void SmallestMicrometres_OfASpeed_IsTheInverse(byte size, ushort density, byte viscosity)
    {
        var (d, rho, mu) = (0.1 + size, 100 + (density / 3.0), 0.1 + (viscosity / 10.0));
        if (Math.Abs(rho - 1000) < 1)
        {
            return;
        }

        var speed = Stokes.Speed(d, rho, 1000, mu);
        Assert.Equal(Math.Sign(1000 - rho), Math.Sign(speed.MillimetresPerSecond));
        Assert.True(Math.Abs(Stokes.Speed(d + 1, rho, 1000, mu).MillimetresPerSecond) > Math.Abs(speed.MillimetresPerSecond));
        Assert.Equal(d, Stokes.SmallestMicrometres(Math.Abs(speed.MillimetresPerSecond), 1, rho, 1000, mu), tolerance: 1e-9 * d);
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("diameterMicrometres", () => Stokes.Speed(0.09, 880, 1000, 1));
        Assert.Throws<ArgumentOutOfRangeException>("diameterMicrometres", () => Stokes.Speed(10_001, 880, 1000, 1));
        Assert.Throws<ArgumentOutOfRangeException>("densityKgPerCubicMetre", () => Stokes.Speed(1, 99, 1000, 1));
        Assert.Throws<ArgumentOutOfRangeException>("fluidDensityKgPerCubicMetre", () => Stokes.Speed(1, 880, 2001, 1));
        Assert.Throws<ArgumentOutOfRangeException>("viscosityMilliPascalSeconds", () => Stokes.Speed(1, 880, 1000, 0.09));
        Assert.Throws<ArgumentOutOfRangeException>("depthMm", () => Stokes.Speed(1, 880, 1000, 1).SecondsOver(20_001));
        Assert.Throws<ArgumentOutOfRangeException>("depthMm", () => Stokes.SmallestMicrometres(-1, 1, 880, 1000, 1));
        Assert.Throws<ArgumentOutOfRangeException>("seconds", () => Stokes.SmallestMicrometres(1, 0, 880, 1000, 1));
        Assert.Throws<ArgumentOutOfRangeException>("densityKgPerCubicMetre", () => Stokes.SmallestMicrometres(1, 1, 999.5, 1000, 1));
        Assert.Throws<ArgumentOutOfRangeException>("densityKgPerCubicMetre", () => Stokes.SmallestMicrometres(1, 1, 25_001, 1000, 1));
        Assert.Throws<ArgumentOutOfRangeException>("fluidDensityKgPerCubicMetre", () => Stokes.SmallestMicrometres(1, 1, 880, 499, 1));
        Assert.Throws<ArgumentOutOfRangeException>("viscosityMilliPascalSeconds", () => Stokes.SmallestMicrometres(1, 1, 880, 1000, 10_001));
        Assert.True(Stokes.SmallestMicrometres(1, 1, 999, 1000, 1) > 0);
    }
}
