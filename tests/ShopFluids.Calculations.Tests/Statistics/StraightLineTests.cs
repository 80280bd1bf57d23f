using ShopFluids.Calculations.Statistics;
using ShopFluids.Calculations.Tests.Vectors;
using Xunit;

namespace ShopFluids.Calculations.Tests.Statistics;

public sealed class StraightLineTests
{
    // strd_norris.csv: NIST StRD, certified values. It is the worked example of docs/calculations/statistics.md.
    [Fact]
    public void Fit_NistNorris_MatchesTheCertifiedValues()
    {
        var line = Norris();
        Assert.Equal(-0.262323073774029, line.Intercept, tolerance: 1e-11);
        Assert.Equal(1.00211681802045, line.Slope, tolerance: 1e-13);
        Assert.Equal(0.232818234301152, line.InterceptDeviation, tolerance: 1e-11);
        Assert.Equal(0.429796848199937e-3, line.SlopeDeviation, tolerance: 1e-14);
        Assert.Equal(0.884796396144373, line.ResidualDeviation, tolerance: 1e-11);
        Assert.Equal(0.999993745883712, line.RSquared ?? 0, tolerance: 1e-13);
        Assert.Equal((36, 34), (line.Count, line.DegreesOfFreedom));
    }

    [Fact]
    public void Intervals_NistNorrisAt500_MatchTheComputedHalfWidths()
    {
        var line = Norris();
        var (mean, next, slope) = (line.MeanInterval(500, 0.95), line.PredictionInterval(500, 0.95), line.SlopeInterval(0.95));
        Assert.Equal(500.79608593645, line.At(500), 9);
        Assert.Equal(500.79608593645 - 0.30788946, mean.Low, 7);
        Assert.Equal(500.79608593645 + 0.30788946, mean.High, 7);
        Assert.Equal(500.79608593645 - 1.82429188, next.Low, 7);
        Assert.Equal(500.79608593645 + 1.82429188, next.High, 7);
        Assert.Equal((line.At(500), line.At(500)), (mean.Value, next.Value));
        Assert.Equal(1.00211681802045 - (2.03224451 * 0.429796848199937e-3), slope.Low, 11);
        Assert.Equal(1.00211681802045 + (2.03224451 * 0.429796848199937e-3), slope.High, 11);
        Assert.Equal(line.Slope, slope.Value);
    }

    // Anscombe, American Statistician 27 (1973) 17, from memory: four sets with one and the same line.
    [Theory]
    [InlineData("8.04 6.95 7.58 8.81 8.33 9.96 7.24 4.26 10.84 4.82 5.68", 0.6665)]
    [InlineData("9.14 8.14 8.74 8.77 9.26 8.10 6.13 3.10 9.13 7.26 4.74", 0.6662)]
    [InlineData("7.46 6.77 12.74 7.11 7.81 8.84 6.08 5.39 8.15 6.42 5.73", 0.6663)]
    public void Fit_Anscombe_IsThreePlusHalfX(string values, double rSquared)
    {
        var line = StraightLine.Fit(Series.From([10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5], [.. values.Split(' ').Select(VectorFile.Number)]));
        Assert.Equal(3.00, line.Intercept, 2);
        Assert.Equal(0.500, line.Slope, 3);
        Assert.Equal(rSquared, line.RSquared ?? 0, 4);
    }

    [Fact]
    public void Fit_AllOnALine_HasNoResiduals()
    {
        var line = StraightLine.Fit(Series.From([0, 1, 2], [1, 3, 5]));
        Assert.Equal((1, 2, 0, 1), (line.Intercept, line.Slope, line.ResidualDeviation, line.RSquared ?? 0));
        Assert.Equal(new Interval(21, 21, 21), line.PredictionInterval(10, 0.9));
        Assert.Null(StraightLine.Fit(Series.From([0, 1, 2], [4, 4, 4])).RSquared);
        Assert.Equal(0, StraightLine.Fit(Series.From([0, 1, 2], [1, 2, 1])).RSquared ?? -1, 12);
    }

    [Fact]
    public void Fit_TooFewOrOneTime_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("series", () => StraightLine.Fit(Series.From([0, 1], [1, 3])));
        Assert.Throws<ArgumentException>("series", () => StraightLine.Fit(Series.From([1, 1, 1.0000004], [1, 3, 4])));
        var line = Norris();
        Assert.Throws<ArgumentOutOfRangeException>("confidence", () => line.MeanInterval(0, 0.49));
        Assert.Throws<ArgumentOutOfRangeException>("confidence", () => line.PredictionInterval(0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("time", () => line.At(1.1e9));
    }

    [Fact]
    public void Series_Unsorted_IsPutInOrderOfTimeAndThenOfValue()
    {
        var series = Series.From([3, 1, 2, 1, 1], [30, 12, 20, 11, 10]);
        Assert.Equal([1, 1, 1, 2, 3], series.Times.ToArray());
        Assert.Equal([10, 11, 12, 20, 30], series.Values.ToArray());
        Assert.Equal(5, series.Count);
    }

    [Fact]
    public void Series_OutOfRange_IsRefusedByName()
    {
        Assert.Throws<ArgumentException>("values", () => Series.From([1, 2], [1]));
        Assert.Throws<ArgumentOutOfRangeException>("times", () => Series.From([1.1e9], [1]));
        Assert.Throws<ArgumentOutOfRangeException>("times", () => Series.From([], []));
        Assert.Throws<ArgumentOutOfRangeException>("values", () => Series.From([1], [1.1e12]));
        Assert.Throws<ArgumentOutOfRangeException>("times", () => Series.From(new double[100_001], new double[100_001]));
        Assert.Throws<ArgumentNullException>("times", () => Series.From(null!, [1]));
    }

    private static StraightLine Norris()
    {
        var rows = VectorFile.Rows("strd_norris");
        return StraightLine.Fit(Series.From([.. rows.Select(row => VectorFile.Number(row[1]))], [.. rows.Select(row => VectorFile.Number(row[0]))]));
    }
}
