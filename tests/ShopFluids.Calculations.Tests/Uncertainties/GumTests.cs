using MathNet.Numerics.Distributions;
using ShopFluids.Calculations.Uncertainties;
using Xunit;

namespace ShopFluids.Calculations.Tests.Uncertainties;

public sealed class GumTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(0.1)]
    [InlineData(5)]
    public void FromResolution_Step_IsTheDeviationOfAUniformDistributionOverIt(double step) =>
        Assert.Equal(new ContinuousUniform(0, step).StdDev, Gum.FromResolution(step), 12);

    [Theory]
    [InlineData(0)]
    [InlineData(0.2)]
    [InlineData(5)]
    public void FromAccuracy_HalfWidth_IsTheDeviationOfAUniformDistributionOfBothSides(double halfWidth) =>
        Assert.Equal(new ContinuousUniform(-halfWidth, halfWidth).StdDev, Gum.FromAccuracy(halfWidth), 12);

    [Fact]
    public void Combine_ThreeAndFour_IsFive() => Assert.Equal(5, Gum.Combine(3, 4), 12);

    [Fact]
    public void Combine_Nothing_IsZero() => Assert.Equal(0, Gum.Combine());

    [Fact]
    public void FirstOrder_SensitivitiesOfEitherSign_AddInSquares() => Assert.Equal(13, Gum.FirstOrder((-5, 1), (4, 3)), 12);

    [Fact]
    public void Propagate_Inputs_GivesTwiceTheCombinedUncertainty() => Assert.Equal(new Estimate(7, 26), Gum.Propagate(7, (-5, 1), (4, 3)));

    [Fact]
    public void StandardUncertainty_OfEstimate_IsHalfTheExpanded() => Assert.Equal(0.15, new Estimate(8, 0.3).StandardUncertainty, 12);

    [Fact]
    public void Exact_Value_HasNoUncertainty() => Assert.Equal(new Estimate(8, 0), Estimate.Exact(8));

    [Theory]
    [InlineData(-0.1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void AnyInput_NotAnUncertainty_IsRefusedByName(double bad)
    {
        Assert.Throws<ArgumentOutOfRangeException>("resolution", () => Gum.FromResolution(bad));
        Assert.Throws<ArgumentOutOfRangeException>("halfWidth", () => Gum.FromAccuracy(bad));
        Assert.Throws<ArgumentOutOfRangeException>("standardUncertainty", () => Gum.Combine(1, bad));
        Assert.Throws<ArgumentOutOfRangeException>("standardUncertainty", () => Gum.FirstOrder((1, bad)));
        Assert.Throws<ArgumentOutOfRangeException>("ExpandedUncertainty", () => new Estimate(1, bad));
    }

    [Fact]
    public void AnyResult_TooLargeForADouble_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>("standardUncertainties", () => Gum.Combine(1e200, 1e200));
        Assert.Throws<ArgumentOutOfRangeException>("inputs", () => Gum.FirstOrder((1e200, 1e200)));
        Assert.Throws<ArgumentOutOfRangeException>("Value", () => new Estimate(double.NaN, 0));
        Assert.Throws<ArgumentOutOfRangeException>("sensitivity", () => Gum.FirstOrder((double.NaN, 1)));
    }
}
