using FsCheck.Xunit;
using ShopFluids.Calculations.Concentrations;
using ShopFluids.Calculations.Tests.Vectors;
using Xunit;

namespace ShopFluids.Calculations.Tests.Concentrations;

/// <summary>Check values: ratio_percent.csv, computed from the two definitions.</summary>
[Properties(MaxTest = 500, Replay = "20260101,20260103")]
public sealed class MixRatioTests
{
    public static TheoryData<string[]> Ratios => VectorFile.Theory("ratio_percent");

    [Theory]
    [MemberData(nameof(Ratios))]
    public void PercentFromParts_ComputedTable_Agrees(string[] row) =>
        Assert.Equal(VectorFile.Number(row[1]), MixRatio.PercentFromParts(VectorFile.Number(row[0])), 6);

    [Theory]
    [MemberData(nameof(Ratios))]
    public void PercentFromOneIn_ComputedTable_Agrees(string[] row) =>
        Assert.Equal(VectorFile.Number(row[2]), MixRatio.PercentFromOneIn(VectorFile.Number(row[0])), 6);

    [Theory]
    [MemberData(nameof(Ratios))]
    public void PartsAndOneInFromPercent_ComputedTable_GiveTheRatioBack(string[] row)
    {
        // The table prints percent to six decimals; at 1:99 that leaves five decimals of N.
        Assert.Equal(VectorFile.Number(row[0]), MixRatio.PartsFromPercent(VectorFile.Number(row[1])), 4);
        Assert.Equal(VectorFile.Number(row[0]), MixRatio.OneInFromPercent(VectorFile.Number(row[2])), 4);
    }

    [Fact]
    public void OneToTwenty_SpokenBothWays_AreDifferentConcentrations()
    {
        Assert.Equal(4.7619, MixRatio.PercentFromParts(20), 4);
        Assert.Equal(5, MixRatio.PercentFromOneIn(20), 12);
        Assert.Equal(19, MixRatio.PartsFromPercent(5), 12);
    }

    [Property]
    public void PartsFromPercent_OfPercentFromParts_IsTheInverse(ushort thousandths)
    {
        var parts = thousandths / 100.0;
        Assert.Equal(parts, MixRatio.PartsFromPercent(MixRatio.PercentFromParts(parts)), tolerance: 1e-9);
        Assert.Equal(parts + 1, MixRatio.OneInFromPercent(MixRatio.PercentFromOneIn(parts + 1)), tolerance: 1e-9);
    }

    [Property]
    public void PercentFromParts_MoreWater_IsAlwaysThinner(ushort hundredths) =>
        Assert.True(MixRatio.PercentFromParts((hundredths + 1) / 100.0) < MixRatio.PercentFromParts(hundredths / 100.0));

    [Property]
    public void OneIn_AndParts_DifferByThePartItself(ushort hundredths) =>
        Assert.Equal(MixRatio.PercentFromParts(hundredths / 100.0), MixRatio.PercentFromOneIn((hundredths / 100.0) + 1), tolerance: 1e-9);

    [Theory]
    [InlineData(-0.1)]
    [InlineData(1_000_001)]
    [InlineData(double.NaN)]
    public void PercentFromParts_OutOfRange_IsRefusedByName(double parts)
    {
        Assert.Throws<ArgumentOutOfRangeException>("waterParts", () => MixRatio.PercentFromParts(parts));
        Assert.Throws<ArgumentOutOfRangeException>("waterParts", () => Concentration.FromParts(parts));
        Assert.Throws<ArgumentOutOfRangeException>("n", () => MixRatio.PercentFromOneIn(parts));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(100.1)]
    [InlineData(double.NaN)]
    public void PartsFromPercent_OutOfRange_IsRefusedByName(double outside)
    {
        Assert.Throws<ArgumentOutOfRangeException>("percent", () => MixRatio.PartsFromPercent(outside));
        Assert.Throws<ArgumentOutOfRangeException>("percent", () => MixRatio.OneInFromPercent(outside));
    }

    [Fact]
    public void Concentration_FromParts_HoldsThePercentage()
    {
        Assert.Equal(Concentration.FromPercent(5), Concentration.FromParts(19));
        Assert.Equal(0, default(Concentration).Percent);
        Assert.Throws<ArgumentOutOfRangeException>("percent", () => Concentration.FromPercent(100.01));
        Assert.Throws<ArgumentOutOfRangeException>("percent", () => Concentration.FromPercent(-0.01));
    }
}
