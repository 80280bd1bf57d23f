using ShopFluids.Calculations.Statistics;
using ShopFluids.Calculations.Tests.Vectors;
using Xunit;

namespace ShopFluids.Calculations.Tests.Statistics;

public sealed class MannKendallTests
{
    public static TheoryData<string[]> Published => VectorFile.Theory("mann_kendall");

    // mann_kendall.csv: EPA QA/G-9S page 109, Gilbert 1987, van Belle and Hughes 1984; read, p computed.
    [Theory]
    [MemberData(nameof(Published))]
    public void Test_PublishedExamples_Agree(string[] row)
    {
        var series = Series.From(Numbers(row[1]), Numbers(row[2]));
        var result = MannKendall.Test(series);
        Check(row[3], result.S, 0);
        Check(row[4], result.Variance, 5e-6);
        Check(row[5], result.Z, 5e-6);
        Check(row[6], result.PValue, 5e-7);
        Check(row[7].Split(' ')[0], TheilSen.Fit(series).Slope, 1e-12);
    }

    [Theory]
    [InlineData("1;2;3;4", 6, 2 / 24.0)]
    [InlineData("4;3;2;1", -6, 2 / 24.0)]
    [InlineData("1;2;4;3", 4, 8 / 24.0)]
    [InlineData("2;1;4;3", 2, 18 / 24.0)]
    [InlineData("3;1;4;2", 0, 1.0)]
    [InlineData("1;2;3;4;5;6;7;8;9;10", 45, 2 / 3628800.0)]
    public void Test_UpToTenWithoutTies_IsExact(string values, long s, double p)
    {
        var numbers = Numbers(values);
        var result = MannKendall.Test(Series.From([.. Enumerable.Range(0, numbers.Length).Select(i => (double)i)], numbers));
        Assert.Equal(s, result.S);
        Assert.Equal(p, result.PValue, 12);
        Assert.True(result.IsExact);
    }

    [Fact]
    public void Test_ElevenOrTies_IsNormal()
    {
        double[] eleven = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];
        Assert.False(MannKendall.Test(Series.From(eleven, eleven)).IsExact);
        Assert.False(MannKendall.Test(Series.From([1, 2, 3, 4], [1, 1, 2, 3])).IsExact);
        Assert.False(MannKendall.Test(Series.From([1, 1, 3, 4], [1, 4, 2, 3])).IsExact);
    }

    [Fact]
    public void Test_NothingVaries_HasNoTrend()
    {
        var result = MannKendall.Test(Series.From([1, 2, 3, 4, 5], [7, 7, 7, 7, 7]));
        Assert.Equal(new MannKendallResult(0, 0, 0, 1, false), result);
    }

    // Kendall's general variance by hand: n = 5, times tied in a pair, values in a triple.
    // (5 4 15 − 2 1 9 − 3 2 11)/18 + (3 2 1)(0)/(...) + (2 1)(3 2)/(2 5 4) = 216/18 + 12/40 = 12.3
    [Fact]
    public void Test_TiesInBoth_UsesTheGeneralVariance()
    {
        var result = MannKendall.Test(Series.From([1, 1, 2, 3, 4], [5, 6, 6, 6, 7]));
        Assert.Equal(12.3, result.Variance, 12);
        Assert.Equal(6, result.S);
        Assert.Equal(5 / Math.Sqrt(12.3), result.Z, 12);
        Assert.Equal(-5 / Math.Sqrt(12.3), MannKendall.Test(Series.From([1, 1, 2, 3, 4], [-5, -6, -6, -6, -7])).Z, 12);
    }

    // Triples tied in both: (6 5 17 − 3 2 11 − 3 2 11)/18 + (6)(6)/(9 6 5 4) + (6)(6)/(2 6 5).
    [Fact]
    public void Test_TriplesInBoth_AddsTheThirdTerm()
    {
        var result = MannKendall.Test(Series.From([1, 1, 1, 2, 3, 4], [5, 5, 5, 6, 7, 8]));
        Assert.Equal((378 / 18.0) + (36 / 1080.0) + (36 / 60.0), result.Variance, 12);
        Assert.Equal(12, result.S);
    }

    [Fact]
    public void Test_ManyReadings_MatchesAllPairsCounted()
    {
        var noise = new Noise(20260102);
        for (var run = 0; run < 200; run++)
        {
            var count = 4 + (int)(60 * noise.Uniform());
            double[] times = [.. Enumerable.Range(0, count).Select(_ => Math.Floor(20 * noise.Uniform()))];
            double[] values = [.. Enumerable.Range(0, count).Select(_ => Math.Floor(10 * noise.Uniform()))];
            var expected = 0;
            for (var i = 0; i < count; i++)
            {
                for (var j = 0; j < i; j++)
                {
                    expected += Math.Sign(times[i] - times[j]) * Math.Sign(values[i] - values[j]);
                }
            }

            Assert.Equal(expected, MannKendall.Test(Series.From(times, values)).S);
        }
    }

    [Fact]
    public void Test_ThreeReadings_AreTooFew() =>
        Assert.Throws<ArgumentOutOfRangeException>("series", () => MannKendall.Test(Series.From([1, 2, 3], [1, 2, 3])));

    private static double[] Numbers(string text) => [.. text.Split(';').Select(VectorFile.Number)];

    private static void Check(string expected, double actual, double tolerance)
    {
        if (expected.Length > 0)
        {
            Assert.Equal(VectorFile.Number(expected), actual, tolerance);
        }
    }
}
