using ShopFluids.Calculations.Forecasts;
using ShopFluids.Calculations.Statistics;
using ShopFluids.Calculations.Tests.Statistics;
using Xunit;

namespace ShopFluids.Calculations.Tests.Forecasts;

public sealed class LimitForecastTests
{
    // y = 8, 8.1, 8.3, 8.4, 8.6 at x = 0 to 4 weeks: mean 8.28, slope 0.15, S_xx = 10, s² = 0.003/3. The worked example of docs/calculations/forecast.md.
    private static readonly StraightLine Worked = StraightLine.Fit(Series.From([0, 1, 2, 3, 4], [8, 8.1, 8.3, 8.4, 8.6]));

    [Fact]
    public void Of_RisingPh_MatchesTheWorkedExample()
    {
        Assert.Equal(0.15, Worked.Slope, 9);
        Assert.Equal(Math.Sqrt(0.001), Worked.ResidualDeviation, 9);
        var forecast = LimitForecast.Of(Worked, new(null, 9.2), 4, 52);
        Assert.Equal((LimitSide.High, true), (forecast.Side, forecast.HasTrend));
        Assert.Equal(Crossing(1), forecast.Earliest ?? 0, 6);
        Assert.Equal(2 + (0.92 / 0.15), forecast.Expected ?? 0, 9);
        Assert.Equal(Crossing(-1), forecast.Latest ?? 0, 6);
        Assert.Equal(7.16, forecast.Earliest ?? 0, 2);
        Assert.Equal(8.13, forecast.Expected ?? 0, 2);
        Assert.Equal(9.42, forecast.Latest ?? 0, 2);
    }

    [Fact]
    public void Of_Falling_MeetsTheLowerLimitAtTheMirroredTimes()
    {
        var falling = StraightLine.Fit(Series.From([0, 1, 2, 3, 4], [-8, -8.1, -8.3, -8.4, -8.6]));
        var (up, down) = (LimitForecast.Of(Worked, new(null, 9.2), 4, 52), LimitForecast.Of(falling, new(-9.2, 100), 4, 52));
        Assert.Equal(LimitSide.Low, down.Side);
        Assert.Equal(up.Earliest ?? 0, down.Earliest ?? 0, 9);
        Assert.Equal(up.Expected ?? 0, down.Expected ?? 0, 9);
        Assert.Equal(up.Latest ?? 0, down.Latest ?? 0, 9);
    }

    [Fact]
    public void Of_LimitMetAlready_IsNow()
    {
        var forecast = LimitForecast.Of(Worked, new(null, 8.5), 4, 52);
        Assert.Equal(new LimitForecast(LimitSide.High, 4, 4, forecast.Latest, true), forecast);
        Assert.True(forecast.Latest > 4);

        // Where the interval is wider than the band, the lower limit is told.
        Assert.Equal(new LimitForecast(LimitSide.Low, 4, null, null, true), LimitForecast.Of(Worked, new(8.57, 8.59), 4, 5) with { Expected = null, Latest = null });
        Assert.Equal(LimitSide.Low, LimitForecast.Of(Worked, new(9, 9.5), 4, 5).Side);
    }

    [Fact]
    public void Of_NothingWithinTheTime_SaysSo()
    {
        Assert.Equal(new LimitForecast(LimitSide.None, null, null, null, true), LimitForecast.Of(Worked, new(7, 9.2), 4, 7.15));
        var earliest = LimitForecast.Of(Worked, new(7, 9.2), 4, 7.17);
        Assert.Equal(LimitSide.High, earliest.Side);
        Assert.Null(earliest.Expected);
        Assert.Null(earliest.Latest);
    }

    [Fact]
    public void Of_NoTrend_TellsOnlyWhenTheIntervalWidensToTheLimit()
    {
        var flat = StraightLine.Fit(Series.From([0, 1, 2, 3, 4], [8, 8.2, 8, 8.2, 8]));
        var forecast = LimitForecast.Of(flat, new(7, 9), 4, 1000);
        Assert.False(forecast.HasTrend);
        Assert.NotNull(forecast.Earliest);
        Assert.Null(forecast.Expected);
        Assert.Null(forecast.Latest);
        Assert.Equal(LimitSide.None, LimitForecast.Of(StraightLine.Fit(Series.From([0, 1, 2], [8, 8, 8])), new(7, 9), 2, 1000).Side);

        // A rise of 0.02 a week that may be chance: the line itself would meet 9 after some 45 weeks, and is not believed.
        var perhaps = LimitForecast.Of(StraightLine.Fit(Series.From([0, 1, 2, 3, 4], [8, 8.2, 8, 8.2, 8.1])), new(7, 9), 4, 1000);
        Assert.Equal((false, null, null), (perhaps.HasTrend, perhaps.Expected, perhaps.Latest));
        Assert.False(LimitForecast.Of(StraightLine.Fit(Series.From([0, 1, 2], [8, 8, 8])), new(7, 9), 2, 1000).HasTrend);
    }

    [Fact]
    public void Of_PerfectLine_MeetsTheLimitAtBothEndsOfTheTimeLookedAt()
    {
        var line = StraightLine.Fit(Series.From([0, 1, 2], [1, 2, 3]));
        Assert.Equal(new LimitForecast(LimitSide.High, 2, 2, 2, true), LimitForecast.Of(line, new(null, 3), 2, 9));
        Assert.Equal(4, LimitForecast.Of(line, new(null, 5), 2, 4).Earliest ?? 0, 9);
    }

    [Fact]
    public void ProbabilityAt_OneAndTwoLimits_AreTheTails()
    {
        var u = Math.Sqrt(0.001 * (1 + 0.2 + (25 / 10.0)));
        var (expected, oracle) = (8.28 + (0.15 * 5), new MathNet.Numerics.Distributions.StudentT(0, 1, 3));
        var above = 1 - oracle.CumulativeDistribution((9.1 - expected) / u);
        var below = oracle.CumulativeDistribution((8.9 - expected) / u);
        Assert.Equal(above, OutOfLimits.ProbabilityAt(Worked, new(null, 9.1), 7), 9);
        Assert.Equal(below, OutOfLimits.ProbabilityAt(Worked, new(8.9, null), 7), 9);
        Assert.Equal(above + below, OutOfLimits.ProbabilityAt(Worked, new(8.9, 9.1), 7), 9);
    }

    [Fact]
    public void ProbabilityAt_PerfectLine_IsNoneOrOne()
    {
        var line = StraightLine.Fit(Series.From([0, 1, 2], [1, 2, 3]));
        Assert.Equal(0, OutOfLimits.ProbabilityAt(line, new(null, 10), 9));
        Assert.Equal(1, OutOfLimits.ProbabilityAt(line, new(null, 10), 9.5));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1e9)]
    public void ProbabilityAt_PerfectLineButForRounding_IsWithinOnTheLimit(double start)
    {
        var line = StraightLine.Fit(Series.From([0, 1, 2, 3], [start + 0.1, start + 0.2, start + 0.3, start + 0.4]));
        Assert.True(line.ResidualDeviation > 0);
        Assert.Equal(0, OutOfLimits.ProbabilityAt(line, new(null, line.At(7)), 7));
    }

    [Fact]
    public void ProbabilityBy_RiskThatFallsAgain_KeepsTheWorstDay()
    {
        var limits = new LimitBand(8.4, null);
        var (now, later) = (OutOfLimits.ProbabilityAt(Worked, limits, 2), OutOfLimits.ProbabilityAt(Worked, limits, 6));
        Assert.True(now > later);
        Assert.Equal(now, OutOfLimits.ProbabilityBy(Worked, limits, 2, 6));
        Assert.Equal(OutOfLimits.ProbabilityAt(Worked, new(null, 9.2), 6.5), OutOfLimits.ProbabilityBy(Worked, new(null, 9.2), 2, 6.5));
        Assert.Equal(now, OutOfLimits.ProbabilityBy(Worked, limits, 2, 2));
    }

    [Fact]
    public void PredictionInterval_SimulatedSumps_CoversItsNominalShare()
    {
        // 40 000 sumps of 8 to 27 weekly readings; the reading four weeks on lies in the 90 % interval.
        var noise = new Noise(20260101);
        const int Sumps = 40_000;
        var covered = 0;
        for (var sump = 0; sump < Sumps; sump++)
        {
            var (perDay, sigma, readings) = (0.02 * noise.Normal(), 0.1 + noise.Uniform(), 8 + (sump % 20));
            var line = Some.Drifting(noise, readings, 7, perDay, sigma);
            var day = 7.0 * (readings + 3);
            var interval = line.PredictionInterval(day, 0.9);
            var next = 7 + (perDay * day) + (sigma * noise.Normal());
            covered += next >= interval.Low && next <= interval.High ? 1 : 0;
        }

        Assert.InRange(covered / (double)Sumps, 0.88, 0.92);
    }

    [Fact]
    public void ProbabilityAt_SimulatedSumps_IsHowOftenTheyAreOut()
    {
        var noise = new Noise(20260102);
        const int Sumps = 40_000;
        var (told, happened) = (0.0, 0);
        for (var sump = 0; sump < Sumps; sump++)
        {
            var line = Some.Drifting(noise, 12, 7, 0.01, 0.4);
            told += OutOfLimits.ProbabilityAt(line, new(6.5, 8.5), 98);
            var next = 7 + 0.98 + (0.4 * noise.Normal());
            happened += next is < 6.5 or > 8.5 ? 1 : 0;
        }

        // Not knowing the line makes the risk told higher than that of one who knows it: it errs to the side of caution, within reason.
        Assert.InRange(told / happened, 1, 2.5);
    }

    [Fact]
    public void AnyInput_OutOfRange_IsRefusedByName()
    {
        var limits = new LimitBand(7, 9);
        Assert.Throws<ArgumentOutOfRangeException>("High", () => new LimitBand(9, 8.9));
        Assert.Throws<ArgumentException>("High", () => new LimitBand(null, null));
        Assert.Throws<ArgumentOutOfRangeException>("Low", () => new LimitBand(double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>("value", () => limits.IsOut(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("from", () => LimitForecast.Of(Worked, limits, 1.1e9, 1.2e9));
        Assert.Throws<ArgumentOutOfRangeException>("until", () => LimitForecast.Of(Worked, limits, 4, 3.9));
        Assert.Throws<ArgumentOutOfRangeException>("until", () => LimitForecast.Of(Worked, limits, 4, 1_000_005));
        Assert.Throws<ArgumentOutOfRangeException>("until", () => OutOfLimits.ProbabilityBy(Worked, limits, 4, 3655));
        Assert.Throws<ArgumentOutOfRangeException>("from", () => OutOfLimits.ProbabilityBy(Worked, limits, double.NaN, 3));
        Assert.Throws<ArgumentNullException>("limits", () => OutOfLimits.ProbabilityAt(Worked, null!, 3));
        Assert.Throws<ArgumentNullException>("line", () => OutOfLimits.ProbabilityAt(null!, limits, 3));
        Assert.Throws<ArgumentNullException>("limits", () => LimitForecast.Of(Worked, null!, 4, 5));
    }

    [Theory]
    [InlineData(6.99, true)]
    [InlineData(7, false)]
    [InlineData(9, false)]
    [InlineData(9.01, true)]
    public void IsOut_OnALimit_IsWithin(double value, bool expected)
    {
        Assert.Equal(expected, new LimitBand(7, 9).IsOut(value));
        Assert.False(new LimitBand(null, 9).IsOut(-1e9));
        Assert.False(new LimitBand(7, null).IsOut(1e9));
    }

    // The quadratic (A − b₁u)² = t² s² (1 + 1/n + u²/S_xx), A = 9.2 − 8.28, u = x − 2: side 1 is its smaller root.
    private static double Crossing(int side)
    {
        var t = MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, 3, 0.95);
        var (k, a) = (t * t * 0.001, 0.92);
        var (p, q, r) = ((0.15 * 0.15) - (k / 10), -2 * a * 0.15, (a * a) - (k * 1.2));
        return 2 + ((-q - (side * Math.Sqrt((q * q) - (4 * p * r)))) / (2 * p));
    }
}
