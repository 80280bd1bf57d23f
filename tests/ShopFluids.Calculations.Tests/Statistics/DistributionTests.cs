using ShopFluids.Calculations.Statistics;
using Xunit;
using Ours = ShopFluids.Calculations.Statistics.StudentT;

namespace ShopFluids.Calculations.Tests.Statistics;

/// <summary>MathNet.Numerics is the oracle.</summary>
public sealed class DistributionTests
{
    [Fact]
    public void NormalCumulative_OverTheWholeRange_AgreesWithTheOracle()
    {
        for (var z = -37.0; z <= 37; z += 0.0625)
        {
            var expected = MathNet.Numerics.Distributions.Normal.CDF(0, 1, z);
            Assert.Equal(expected, NormalDistribution.Cumulative(z), tolerance: (1e-11 * expected) + 1e-300);
        }

        Assert.Equal(0, NormalDistribution.Cumulative(-38.6));
        Assert.Equal(1, NormalDistribution.Cumulative(1e300));
    }

    [Fact]
    public void NormalQuantile_OverTheWholeRange_IsTheInverse()
    {
        foreach (var p in new[] { 1e-300, 1e-100, 1e-20, 1e-12, 1e-6, 0.001, 0.0749, 0.0751, 0.3, 0.5, 0.9, 0.925, 0.9251, 0.975, 0.999999 })
        {
            Assert.Equal(p, NormalDistribution.Cumulative(NormalDistribution.Quantile(p)), tolerance: 2e-11 * p);
        }

        Assert.Equal(0, NormalDistribution.Quantile(0.5));
        Assert.Equal(1.959963984540054, NormalDistribution.Quantile(0.975), 14);
        Assert.Equal(1 / RobustScale.NormalFactor, NormalDistribution.Quantile(0.75), 14);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(2.5)]
    [InlineData(3)]
    [InlineData(9)]
    [InlineData(34)]
    [InlineData(50)]
    [InlineData(1000)]
    [InlineData(9998)]
    public void StudentT_OverTheWholeRange_AgreesWithTheOracle(double freedom)
    {
        var oracle = new MathNet.Numerics.Distributions.StudentT(0, 1, freedom);
        for (var t = -12.0; t <= 12; t += 0.125)
        {
            var expected = oracle.CumulativeDistribution(t);
            Assert.Equal(expected, Ours.Cumulative(t, freedom), tolerance: (1e-9 * expected) + 1e-14);
        }

        foreach (var p in new[] { 1e-12, 1e-9, 1e-6, 0.0005, 0.025, 0.05, 0.25, 0.4999, 0.49999999, 0.5, 0.7, 0.95, 0.975, 0.9995 })
        {
            var t = Ours.Quantile(p, freedom);
            Assert.Equal(p, Ours.Cumulative(t, freedom), tolerance: 1e-11 * p);
        }
    }

    [Theory]
    [InlineData(0.975, 1, 12.706204736174698)]
    [InlineData(0.975, 2, 4.302652729749462)]
    [InlineData(0.975, 10, 2.2281388519862735)]
    [InlineData(0.95, 34, 1.6909242551868542)]
    [InlineData(0.025, 10, -2.2281388519862735)]
    [InlineData(0.5, 7, 0)]
    public void StudentTQuantile_Tables_Agree(double p, double freedom, double expected) =>
        Assert.Equal(expected, Ours.Quantile(p, freedom), tolerance: 1e-9);

    [Fact]
    public void StudentT_ManyDegreesOfFreedom_IsNearlyNormal()
    {
        Assert.Equal(NormalDistribution.Cumulative(1.5), Ours.Cumulative(1.5, 1_000_000), tolerance: 1e-6);
        Assert.Equal(1.9599664, Ours.Quantile(0.975, 1_000_000), tolerance: 1e-6);
        Assert.Equal(0, Ours.Cumulative(-1e300, 3));
        Assert.Equal(0.5, Ours.Cumulative(0, 3));
        Assert.Equal(1, Ours.Cumulative(1e300, 3));
        Assert.Equal(0, Ours.Quantile(0.5, 7));
    }

    [Fact]
    public void AnyInput_OutOfRange_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("z", () => NormalDistribution.Cumulative(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("probability", () => NormalDistribution.Quantile(0));
        Assert.Throws<ArgumentOutOfRangeException>("probability", () => NormalDistribution.Quantile(1));
        Assert.Throws<ArgumentOutOfRangeException>("probability", () => Ours.Quantile(1e-13, 3));
        Assert.Throws<ArgumentOutOfRangeException>("degreesOfFreedom", () => Ours.Quantile(0.4, 0.9));
        Assert.Throws<ArgumentOutOfRangeException>("degreesOfFreedom", () => Ours.Cumulative(1, 1_000_001));
    }
}
