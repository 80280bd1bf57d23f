using ShopFluids.Calculations.Charts;
using ShopFluids.Calculations.Tests.Vectors;
using Xunit;

namespace ShopFluids.Calculations.Tests.Charts;

public sealed class ChartTests
{
    // nist_individuals_chart.csv: NIST/SEMATECH e-Handbook 6.3.2.2. A worked example of docs/calculations/statistics.md.
    [Fact]
    public void Limits_NistFlowRates_MatchTheHandbook()
    {
        var limits = IndividualsChart.Limits([.. VectorFile.Rows("nist_individuals_chart").Select(row => VectorFile.Number(row[1]))]);
        Assert.Equal(50.81, limits.Mean, 9);
        Assert.Equal(1.8778, limits.MeanMovingRange, 4);
        Assert.Equal(55.8041, limits.UpperAction, 4);
        Assert.Equal(45.8159, limits.LowerAction, 4);
        Assert.Equal(6.1347, limits.UpperMovingRange, 4);
        Assert.Equal(50.81 + (2 * 16.9 / 9 / 1.128), limits.UpperWarning, 9);
        Assert.Equal(50.81 - (2 * 16.9 / 9 / 1.128), limits.LowerWarning, 9);
        Assert.Equal(16.9 / 9 / 1.128, limits.Sigma, 9);
    }

    [Fact]
    public void IsBeyondActionAndIsStep_OnTheLimit_AreFalse()
    {
        var limits = new IndividualsLimits(10, 1.128);
        Assert.False(limits.IsBeyondAction(13));
        Assert.True(limits.IsBeyondAction(13.0001));
        Assert.False(limits.IsBeyondAction(7));
        Assert.True(limits.IsBeyondAction(6.9999));
        var step = 3.267 * 1.128;
        Assert.False(limits.IsStep(0, step));
        Assert.True(limits.IsStep(0, step + 0.0001));
        Assert.True(limits.IsStep(step + 0.0001, 0));
        Assert.False(limits.IsStep(10, 10));
        Assert.True(limits.IsStep(-10, 10));
    }

    // nist_ewma.csv: NIST/SEMATECH e-Handbook 6.3.2.4; limits that widen computed.
    [Fact]
    public void Points_NistEwma_MatchTheHandbook()
    {
        var rows = VectorFile.Rows("nist_ewma").Select(row => row.Select(VectorFile.Number).ToArray()).ToArray();
        var points = EwmaChart.Points([.. rows.Select(row => row[1])], 50, 2.0539);
        Assert.Equal(20, points.Count);
        Assert.All(rows.Zip(points), pair =>
        {
            Assert.Equal(pair.First[3], pair.Second.Value, 6);
            Assert.Equal(pair.First[2], pair.Second.Value, tolerance: 0.006);
            Assert.Equal(pair.First[4], pair.Second.Upper, 5);
            Assert.Equal(pair.First[5], pair.Second.Lower, 5);
            Assert.False(pair.Second.IsSignal);
        });
    }

    [Fact]
    public void Points_ShiftUpOrDown_SignalBeyondTheLimitOnly()
    {
        Assert.False(EwmaChart.Points([3], 0, 1, 1)[0].IsSignal);
        Assert.True(EwmaChart.Points([3.001], 0, 1, 1)[0].IsSignal);
        Assert.False(EwmaChart.Points([-3], 0, 1, 1)[0].IsSignal);
        Assert.True(EwmaChart.Points([-3.001], 0, 1, 1)[0].IsSignal);
        Assert.Equal(new EwmaPoint(1.5, -3, 7), EwmaChart.Points([1], 2, 2, 0.5, 5)[0]);
    }

    // NIST/SEMATECH e-Handbook 6.3.2.3 (readings from memory; the published sums 4.94 at 14 and 19.035 at 20 confirm them).
    [Fact]
    public void Of_NistCusum_SignalsFromReadingFourteenOn()
    {
        double[] values =
        [
            324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
            324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350,
        ];
        var chart = CusumChart.Of(values, 325, 0.3175, 4.1959);
        Assert.Equal(4.94, chart.Points[13].High, 9);
        Assert.Equal(19.035, chart.Points[19].High, 9);
        Assert.Equal(13, chart.FirstSignal);
        Assert.Equal(12, chart.ShiftBegan);
        Assert.Equal(Enumerable.Range(13, 7), Enumerable.Range(0, 20).Where(i => chart.Points[i].IsSignal));
        Assert.Equal(0.3325, chart.Points[3].Low, 9);
    }

    [Fact]
    public void Of_ShiftDownwards_TellsWhenItBegan()
    {
        var chart = CusumChart.Of([0, 2, 0, -1, -1, -1], 0, 0.5, 1);
        Assert.Equal([0, 1.5, 1, 0, 0, 0], chart.Points.Select(point => point.High));
        Assert.Equal([0, 0, 0, 0.5, 1, 1.5], chart.Points.Select(point => point.Low));
        Assert.Equal((1, 1), (chart.FirstSignal, chart.ShiftBegan));
        var down = CusumChart.Of([0, 0, -1, -1, -1], 0, 0.5, 1);
        Assert.Equal((4, 2), (down.FirstSignal, down.ShiftBegan));
        Assert.False(down.Points[3].IsSignal);

        // Up to the limit, which is no signal yet, and down beyond it.
        Assert.Equal([false, true], CusumChart.Of([1.5, -9], 0, 0.5, 1).Points.Select(point => point.IsSignal));
        Assert.Equal((1, 1), (CusumChart.Of([1.5, -9], 0, 0.5, 1).FirstSignal, CusumChart.Of([1.5, -9], 0, 0.5, 1).ShiftBegan));
        Assert.Null(CusumChart.Of([0, 0], 0, 0.5, 1).FirstSignal);
        Assert.Null(CusumChart.Of([0, 0], 0, 0.5, 1).ShiftBegan);
    }

    [Fact]
    public void AnyInput_OutOfRange_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("values", () => IndividualsChart.Limits([1]));
        Assert.Throws<ArgumentOutOfRangeException>("MeanMovingRange", () => new IndividualsLimits(1, -1));
        Assert.Throws<ArgumentOutOfRangeException>("Mean", () => new IndividualsLimits(double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>("sigma", () => EwmaChart.Points([1], 0, -1));
        Assert.Throws<ArgumentOutOfRangeException>("centre", () => EwmaChart.Points([1], 1e13, 1));
        Assert.Throws<ArgumentOutOfRangeException>("weight", () => EwmaChart.Points([1], 0, 1, 0));
        Assert.Throws<ArgumentOutOfRangeException>("width", () => EwmaChart.Points([1], 0, 1, 0.3, 11));
        Assert.Throws<ArgumentOutOfRangeException>("target", () => CusumChart.Of([1], 1e13, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("allowance", () => CusumChart.Of([1], 0, -1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("decisionLimit", () => CusumChart.Of([1], 0, 1, -1));
    }
}
