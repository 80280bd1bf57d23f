using ShopFluids.Calculations.Statistics;
using Xunit;

namespace ShopFluids.Calculations.Tests.Statistics;

public sealed class RobustScaleTests
{
    // The worked example of docs/calculations/statistics.md; one reading of ten is a typing error.
    private static readonly double[] WithTypo = [6.1, 6.0, 5.9, 6.2, 6.0, 61, 5.8, 6.1, 6.0, 5.9];

    [Fact]
    public void Deviation_WithATypingError_MatchesTheWorkedExample()
    {
        Assert.Equal(6.0, RobustScale.Median(WithTypo), 12);
        Assert.Equal(0.1, RobustScale.MedianAbsoluteDeviation(WithTypo), 12);
        Assert.Equal(0.1482602218505602, RobustScale.Deviation(WithTypo), 12);
        var scores = RobustScale.ModifiedScores(WithTypo);
        Assert.NotNull(scores);
        Assert.Equal(55 / 0.1482602218505602, scores[5], 9);
        Assert.Single(scores, score => Math.Abs(score) > 3.5);
    }

    [Theory]
    [InlineData(new[] { 3.0 }, 3, 0)]
    [InlineData(new[] { 3.0, 4 }, 3.5, 0.5)]
    [InlineData(new[] { 1.0, 9, 5 }, 5, 4)]
    [InlineData(new[] { 1.0, 1, 2, 2, 4, 6, 9 }, 2, 1)]
    [InlineData(new[] { -4.0, 4, -2, 2 }, 0, 3)]
    public void MedianAndDeviation_SmallSets_AreThoseByHand(double[] values, double median, double deviation)
    {
        Assert.Equal(median, RobustScale.Median(values));
        Assert.Equal(deviation, RobustScale.MedianAbsoluteDeviation(values));
    }

    [Fact]
    public void ModifiedScores_MostValuesEqual_IsNull()
    {
        Assert.Null(RobustScale.ModifiedScores([5, 5, 5, 9]));
        Assert.Null(RobustScale.ModifiedScores([5]));
        Assert.Equal([0], RobustScale.ModifiedScores([1, 2, 3])?.Where(score => Math.Abs(score) < 1e-9) ?? []);
    }

    // Whether there is a scale to measure by is a matter of the distances, not of the unit or of how far from 0 the values lie.
    [Theory]
    [InlineData(1e-10, 2e-10, 3e-10)]
    [InlineData(1_000_000_000, 1_000_000_000.1, 1_000_000_000.2)]
    public void ModifiedScores_TinyOrFarValues_AreWorkedOut(double low, double middle, double high)
    {
        var scores = RobustScale.ModifiedScores([low, middle, high]);
        Assert.NotNull(scores);
        Assert.Equal(0, scores[1]);
        Assert.Equal(1 / RobustScale.NormalFactor, scores[2], 5);
    }

    [Fact]
    public void Median_ManyOrders_IsTheMiddleOfTheSorted()
    {
        var noise = new Noise(20260101);
        for (var count = 1; count <= 300; count++)
        {
            double[] values = [.. Enumerable.Range(0, count).Select(_ => Math.Round(noise.Normal(), count % 3))];
            var sorted = values.Order().ToArray();
            Assert.Equal((sorted[(count - 1) / 2] + sorted[count / 2]) / 2, RobustScale.Median(values));
            Assert.Equal((sorted[(count - 1) / 2] + sorted[count / 2]) / 2, RobustScale.Median(sorted));
            Array.Reverse(sorted);
            Assert.Equal((sorted[(count - 1) / 2] + sorted[count / 2]) / 2, RobustScale.Median(sorted));
        }
    }

    [Fact]
    public void Median_SortedLastValueFirst_IsFoundWithoutAHang()
    {
        // An organ pipe, the classic bad case of choosing the middle of three.
        double[] pipe = [.. Enumerable.Range(0, 50_000).Select(i => (double)i), .. Enumerable.Range(0, 50_000).Select(i => 50_000.0 - i)];
        Assert.Equal(25_000, RobustScale.Median(pipe));
    }

    [Fact]
    public void Median_NoneOrNotANumber_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("values", () => RobustScale.Median([]));
        Assert.Throws<ArgumentOutOfRangeException>("values", () => RobustScale.MedianAbsoluteDeviation([1, double.NaN]));
        Assert.Throws<ArgumentNullException>("values", () => RobustScale.Deviation(null!));
    }
}
