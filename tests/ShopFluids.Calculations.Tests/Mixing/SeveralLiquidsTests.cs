using ShopFluids.Calculations.Mixing;
using ShopFluids.Calculations.Tests.Statistics;
using ShopFluids.Calculations.Uncertainties;
using Xunit;

namespace ShopFluids.Calculations.Tests.Mixing;

public sealed class SeveralLiquidsTests
{
    // The worked example of docs/calculations/mixing.md.
    [Fact]
    public void Of_ThreeLiquids_GivesTheWorkedExample()
    {
        var blend = Blend.Of([Part(150, 4, 2, 0.2), Part(40, 10, 2, 0.2), Part(10, 0, 2, 0.2)]);

        Assert.Equal(200, blend.Litres.Value, 12);
        Assert.Equal(5, blend.Percent.Value, 12);
        Assert.Equal(2 * Math.Sqrt(3), blend.Litres.ExpandedUncertainty, 12);
        Assert.Equal(Math.Sqrt((0.15 * 0.15) + (0.04 * 0.04) + (0.01 * 0.01) + (0.01 * 0.01) + (0.05 * 0.05) + (0.05 * 0.05)), blend.Percent.ExpandedUncertainty, 12);
    }

    [Fact]
    public void Of_AnyLiquids_KeepsWhatWasPouredInAnyOrderAndInAnySteps()
    {
        var noise = new Noise(20261125);
        for (var run = 0; run < 500; run++)
        {
            var parts = Enumerable.Range(0, 2 + (run % 20)).Select(_ => Part(1 + (500 * noise.Uniform()), 100 * noise.Uniform(), noise.Uniform(), noise.Uniform())).ToArray();
            var blend = Blend.Of(parts);

            Assert.Equal(parts.Sum(p => p.Litres.Value), blend.Litres.Value, 9);
            Assert.Equal(parts.Sum(p => p.Litres.Value * p.Percent.Value), blend.Litres.Value * blend.Percent.Value, 6);
            Assert.InRange(blend.Percent.Value, parts.Min(p => p.Percent.Value), parts.Max(p => p.Percent.Value));

            var backwards = Blend.Of([.. parts.Reverse()]);
            Assert.Equal(blend.Percent.Value, backwards.Percent.Value, 9);
            Assert.Equal(blend.Percent.ExpandedUncertainty, backwards.Percent.ExpandedUncertainty, 9);

            // Poured together first, some of them are one liquid of their blend.
            var first = Blend.Of(parts[..2]);
            Assert.Equal(blend.Percent.Value, Blend.Of([new(Estimate.Exact(first.Litres.Value), Estimate.Exact(first.Percent.Value)), .. parts[2..]]).Percent.Value, 9);
        }
    }

    [Fact]
    public void Of_TwoLiquids_UndoesTheAlligation()
    {
        var (high, low) = Alligation.Litres(100, 3, 12, 8);

        Assert.Equal(8, Blend.Of([Part(low, 3), Part(high, 12)]).Percent.Value, 12);
    }

    [Fact]
    public void Of_OneLiquid_IsThatLiquid()
    {
        var blend = Blend.Of([Part(20, 7, 0.5, 0.3)]);

        Assert.Equal((new Estimate(20, 0.5), new Estimate(7, 0.3)), (blend.Litres, blend.Percent));
    }

    [Fact]
    public void AnyInput_OutOfRange_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("parts", () => Blend.Of([]));
        Assert.Throws<ArgumentOutOfRangeException>("parts", () => Blend.Of([.. Enumerable.Repeat(Part(1, 1), 51)]));
        Assert.Throws<ArgumentOutOfRangeException>("parts", () => Blend.Of([Part(0, 5), Part(0, 7)]));
        Assert.Throws<ArgumentOutOfRangeException>("Litres", () => Part(-0.001, 5));
        Assert.Throws<ArgumentOutOfRangeException>("Litres", () => Part(1_000_000.1, 5));
        Assert.Throws<ArgumentOutOfRangeException>("Percent", () => Part(1, -0.001));
        Assert.Throws<ArgumentOutOfRangeException>("Percent", () => Part(1, 100.001));
        Assert.Equal(50, Blend.Of([.. Enumerable.Repeat(Part(1, 1), 50)]).Litres.Value);
    }

    private static BlendPart Part(double litres, double percent, double litresUncertainty = 0, double percentUncertainty = 0) =>
        new(new Estimate(litres, litresUncertainty), new Estimate(percent, percentUncertainty));
}
