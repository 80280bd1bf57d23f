using ShopFluids.Calculations.Statistics;
using ShopFluids.Calculations.Tests.Vectors;
using Xunit;

namespace ShopFluids.Calculations.Tests.Statistics;

public sealed class TheilSenTests
{
    // theil_sen.csv: Sen 1968, also in two public test suites. It is the worked example of docs/calculations/statistics.md.
    [Fact]
    public void Fit_SenExample_MatchesThePublishedSlopeAndLimits()
    {
        var rows = VectorFile.Rows("theil_sen").Select(row => row.Select(VectorFile.Number).ToArray()).ToArray();
        var line = TheilSen.Fit(Series.From([.. rows.Select(row => row[0])], [.. rows.Select(row => row[1])]), 0.93);
        Assert.Equal(4, line.Slope, 12);
        Assert.Equal(26 / 7.0, line.Low ?? 0, 12);
        Assert.Equal(35 / 8.0, line.High ?? 0, 12);
        Assert.Equal(6, line.Intercept, 12);
    }

    [Fact]
    public void Fit_AnscombeThree_IsNotMovedByTheOutlier()
    {
        var line = TheilSen.Fit(Series.From(
            [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5], [7.46, 6.77, 12.74, 7.11, 7.81, 8.84, 6.08, 5.39, 8.15, 6.42, 5.73]));
        Assert.Equal(0.345556, line.Slope, 6);
    }

    [Fact]
    public void Fit_TooFewForTheConfidence_HasNoLimits()
    {
        var line = TheilSen.Fit(Series.From([0, 1, 2], [0, 3, 4]));
        Assert.Equal(2, line.Slope);
        Assert.Null(line.Low);
        Assert.Null(line.High);
        Assert.Equal(1, TheilSen.Fit(Series.From([0, 2], [0, 2])).Slope);
        Assert.Equal(2.5, TheilSen.Fit(Series.From([0, 1, 1], [0, 2, 3])).Slope);
    }

    // Ten slopes, variance of S 50/3: ⌊(10 − 1.645 √(50/3))/2⌋ = 1, so that the least and the greatest slope are the limits.
    [Fact]
    public void Fit_OneSlopeOutside_HasTheOutermostSlopesAsLimits()
    {
        var line = TheilSen.Fit(Series.From([0, 1, 2, 3, 4], [0, 1, 3, 4, 8]), 0.9);
        Assert.Equal((1.0, 4.0), (line.Low ?? 0, line.High ?? 0));
    }

    [Theory]
    [InlineData("smooth")]
    [InlineData("rounded")]
    [InlineData("flat")]
    [InlineData("tied times")]
    [InlineData("two levels")]
    [InlineData("outliers")]
    [InlineData("line")]
    public void Fit_ManyReadings_MatchesAllPairsWorkedOut(string kind)
    {
        for (var seed = 1; seed <= 8; seed++)
        {
            var noise = new Noise(seed);
            var times = Enumerable.Range(0, 320).Select(i => kind == "tied times" ? i / 5 : i + (0.5 * noise.Uniform())).ToArray();
            var values = times.Select(t => kind switch
            {
                "smooth" or "tied times" => 6 - (0.01 * t) + (0.4 * noise.Normal()),
                "rounded" => Math.Round(6 - (0.002 * t) + (0.2 * noise.Normal()), 1),
                "flat" => 6,
                "two levels" => noise.Uniform() < 0.5 ? 1 : 2,
                "outliers" => (t / 7) + (noise.Uniform() < 0.1 ? 1e9 * noise.Normal() : 0),
                _ => (t / 7) + 3,
            }).ToArray();
            var series = Series.From(times, values);
            var (slopes, variance) = (AllSlopes(series), MannKendall.Test(series).Variance);
            var outside = (int)Math.Floor((slopes.Length - (1.959963984540054 * Math.Sqrt(variance))) / 2);
            var line = TheilSen.Fit(series);
            Assert.True(slopes.Length > 20_000, "Too few to make the search work.");
            Same((slopes[(slopes.Length - 1) / 2] + slopes[slopes.Length / 2]) / 2, line.Slope);
            Same(slopes[outside - 1], line.Low ?? 0);
            Same(slopes[^outside], line.High ?? 0);
        }
    }

    [Fact]
    public void Fit_TwentyThousandReadings_FindsTheKnownSlope()
    {
        var noise = new Noise(20260101);
        var times = Enumerable.Range(0, 20_000).Select(i => (double)i).ToArray();
        var line = TheilSen.Fit(Series.From(times, [.. times.Select(t => Math.Round(6 - (0.0001 * t) + (0.3 * noise.Normal()), 1))]));
        Assert.Equal(-0.0001, line.Slope, tolerance: 1e-6);
        Assert.InRange(line.Low ?? 0, -0.000102, line.Slope);
        Assert.InRange(line.High ?? 0, line.Slope, -0.000098);
    }

    [Fact]
    public void Fit_OutOfRange_IsRefusedByName()
    {
        Assert.Throws<ArgumentException>("series", () => TheilSen.Fit(Series.From([1, 1], [1, 2])));
        Assert.Throws<ArgumentOutOfRangeException>("confidence", () => TheilSen.Fit(Series.From([1, 2], [1, 2]), 0.99999));
    }

    private static void Same(double expected, double actual) => Assert.Equal(expected, actual, tolerance: 1e-11 * Math.Max(1, Math.Abs(expected)));

    // Enough readings that slopes are searched in several rounds and sorted by their bits, with zeros of both signs and equal values.
    [Fact]
    public void Fit_ThousandAndMoreReadingsAroundZero_MatchesAllPairsWorkedOut()
    {
        var noise = new Noise(11);
        var times = Enumerable.Range(0, 1200).Select(i => (double)(i / 2)).ToArray();
        var values = times.Select(t => Math.Round((0.002 * (t - 300)) + (0.4 * noise.Normal()), 1)).ToArray();
        var series = Series.From(times, values);
        var slopes = AllSlopes(series);

        Assert.Contains(values, v => v == 0 && double.IsNegative(v));
        Same((slopes[(slopes.Length - 1) / 2] + slopes[slopes.Length / 2]) / 2, TheilSen.Fit(series).Slope);
        var rising = 0L;
        for (var i = 0; i < series.Count; i++)
        {
            for (var j = i + 1; j < series.Count; j++)
            {
                rising += series.Times[j] > series.Times[i] ? series.Values[j].CompareTo(series.Values[i]) : 0;
            }
        }

        Assert.Equal(rising, MannKendall.Test(series).S);
    }

    private static double[] AllSlopes(Series series)
    {
        var (times, values, slopes) = (series.Times.ToArray(), series.Values.ToArray(), new List<double>());
        for (var i = 0; i < times.Length; i++)
        {
            for (var j = i + 1; j < times.Length; j++)
            {
                if (times[j] > times[i])
                {
                    slopes.Add((values[j] - values[i]) / (times[j] - times[i]));
                }
            }
        }

        slopes.Sort();
        return [.. slopes];
    }
}
