using ShopFluids.Calculations.Concentrations;
using ShopFluids.Calculations.Uncertainties;
using Xunit;

namespace ShopFluids.Calculations.Tests.Concentrations;

public sealed class MethodDisagreementTests
{
    // The worked example of docs/calculations/concentration.md.
    [Fact]
    public void Compare_RefractometerHigher_MatchesTheWorkedExample()
    {
        var comparison = MethodDisagreement.Compare(new Estimate(9, 0.4), new Estimate(7.5, 0.3));
        Assert.Equal(1.2, comparison.Ratio.Value, 12);
        Assert.Equal(Math.Sqrt(Math.Pow(0.4 / 7.5, 2) + Math.Pow(9 * 0.3 / 56.25, 2)), comparison.Ratio.ExpandedUncertainty, 12);
        Assert.Equal(0.072, comparison.Ratio.ExpandedUncertainty, 3);
        Assert.Equal(MethodFinding.RefractometerHigh, comparison.Finding);
    }

    [Theory]
    [InlineData(8, 8, 0, MethodFinding.None)]
    [InlineData(10, 8, 2, MethodFinding.None)]
    [InlineData(10, 8, 1.99, MethodFinding.RefractometerHigh)]
    [InlineData(6, 8, 2, MethodFinding.None)]
    [InlineData(6, 8, 1.99, MethodFinding.TitrationHigh)]
    [InlineData(0, 0.01, 0, MethodFinding.TitrationHigh)]
    public void Compare_AroundTheUncertainty_FindsOnlyWhatIsBeyondIt(double refractometer, double titration, double uncertainty, MethodFinding expected) =>
        Assert.Equal(expected, MethodDisagreement.Compare(new Estimate(refractometer, uncertainty), new Estimate(titration, 0)).Finding);

    [Theory]
    [InlineData(1.0, 1.5, MethodFinding.None)]
    [InlineData(1.0, 1.53125, MethodFinding.RefractometerHigh)]
    [InlineData(1.5, 1.0, MethodFinding.None)]
    [InlineData(1.53125, 1.0, MethodFinding.TitrationHigh)]
    public void Drift_ThreeAndFourTenths_NeedsMoreThanFive(double earlier, double latest, MethodFinding expected)
    {
        var (change, finding) = MethodDisagreement.Drift(new Estimate(earlier, 0.3), new Estimate(latest, 0.4));
        Assert.Equal(latest - earlier, change.Value, 12);
        Assert.Equal(0.5, change.ExpandedUncertainty, 12);
        Assert.Equal(expected, finding);
    }

    [Fact]
    public void Compare_OutOfRange_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("refractometerPercent", () => MethodDisagreement.Compare(new(101, 0), new(1, 0)));
        Assert.Throws<ArgumentOutOfRangeException>("refractometerPercent", () => MethodDisagreement.Compare(new(-1, 0), new(1, 0)));
        Assert.Throws<ArgumentOutOfRangeException>("titrationPercent", () => MethodDisagreement.Compare(new(1, 0), new(0.009, 0)));
        Assert.Throws<ArgumentOutOfRangeException>("titrationPercent", () => MethodDisagreement.Compare(new(1, 0), new(100.1, 0)));
    }
}
