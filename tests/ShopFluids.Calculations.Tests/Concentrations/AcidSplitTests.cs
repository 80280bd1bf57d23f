using ShopFluids.Calculations.Concentrations;
using ShopFluids.Calculations.Uncertainties;
using Xunit;

namespace ShopFluids.Calculations.Tests.Concentrations;

public sealed class AcidSplitTests
{
    // The worked example of docs/calculations/concentration.md.
    [Fact]
    public void PercentAndTrampOil_ComputedExample_Match()
    {
        Assert.Equal(6, AcidSplit.LayerPercent(3, 50), 12);
        var percent = AcidSplit.Percent(3, 50, 1.2, 0.1, 1);
        Assert.Equal(7.2, percent.Value, 12);

        // u² = (2.4 × 0.1/√12)² + (0.144 × 1/√12)²
        Assert.Equal(2 * Math.Sqrt((0.24 * 0.24) + (0.144 * 0.144)) / Math.Sqrt(12), percent.ExpandedUncertainty, 12);
        var oil = AcidSplit.TrampOilPercent(new Estimate(6, 0.2), new Estimate(7, 0.4), 70);
        Assert.Equal(1.1, oil.Value, 12);
        Assert.Equal(Math.Sqrt(0.04 + (0.28 * 0.28)), oil.ExpandedUncertainty, 12);
    }

    [Fact]
    public void TrampOilPercent_LessThanTheProductCarries_IsNegativeAndNotCutOff() =>
        Assert.Equal(-2, AcidSplit.TrampOilPercent(new Estimate(3, 0), new Estimate(10, 0), 50).Value, 12);

    [Fact]
    public void Percent_AtTheEdges_IsAccepted()
    {
        Assert.Equal(0, AcidSplit.Percent(0, 50, 1, 0, 0).Value);
        Assert.Equal(100, AcidSplit.Percent(50, 50, 1, 50, 50).Value);
        Assert.Equal(100, AcidSplit.LayerPercent(0.1, 0.1), 12);
        Assert.Equal(1, AcidSplit.LayerPercent(100, 10_000), 12);
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("layerMillilitres", () => AcidSplit.LayerPercent(51, 50));
        Assert.Throws<ArgumentOutOfRangeException>("layerMillilitres", () => AcidSplit.LayerPercent(-1, 50));
        Assert.Throws<ArgumentOutOfRangeException>("sampleMillilitres", () => AcidSplit.LayerPercent(0, 0.09));
        Assert.Throws<ArgumentOutOfRangeException>("sampleMillilitres", () => AcidSplit.LayerPercent(0, 10_001));
        Assert.Throws<ArgumentOutOfRangeException>("splitFactor", () => AcidSplit.Percent(1, 50, 0, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>("splitFactor", () => AcidSplit.Percent(0, 50, 101, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>("layerMillilitres", () => AcidSplit.Percent(26, 50, 2, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>("layerResolutionMillilitres", () => AcidSplit.Percent(1, 50, 1, 51, 0));
        Assert.Throws<ArgumentOutOfRangeException>("sampleResolutionMillilitres", () => AcidSplit.Percent(1, 50, 1, 0, -1));
        Assert.Throws<ArgumentOutOfRangeException>("layerPercent", () => AcidSplit.TrampOilPercent(new(101, 0), new(1, 0), 50));
        Assert.Throws<ArgumentOutOfRangeException>("concentrationPercent", () => AcidSplit.TrampOilPercent(new(1, 0), new(-1, 0), 50));
        Assert.Throws<ArgumentOutOfRangeException>("oilContentPercent", () => AcidSplit.TrampOilPercent(new(1, 0), new(1, 0), 100.1));
    }
}
