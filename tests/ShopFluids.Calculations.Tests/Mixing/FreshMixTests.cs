using FsCheck.Xunit;
using ShopFluids.Calculations.Mixing;
using Xunit;

namespace ShopFluids.Calculations.Tests.Mixing;

[Properties(MaxTest = 500, Replay = "20260101,20260103")]
public sealed class FreshMixTests
{
    // The worked example of docs/calculations/mixing.md: 12.6 L are wanted, a jug with half-litre marks gives 12.5.
    [Fact]
    public void Plan_HalfLitreMarks_TellsWhatTheRoundingDoes()
    {
        var recipe = FreshMix.Plan(180, 7, 0.5);
        Assert.Equal((12.5, 167.5, 180), (recipe.ConcentrateLitres, recipe.WaterLitres, recipe.MixedLitres));
        Assert.Equal(6.944, recipe.ExpectedPercent, 3);
        Assert.Equal(-0.056, recipe.RoundingPercent, 3);
    }

    // 228.86 L is what a sump holds at its full mark: 228.9 L would stand above it.
    [Fact]
    public void Plan_VolumeBetweenTwoSteps_StaysBelowIt()
    {
        var recipe = FreshMix.Plan(228.86, 8, 0.1);
        Assert.Equal((18.3, 210.5, 228.8), (recipe.ConcentrateLitres, recipe.WaterLitres, recipe.MixedLitres));
    }

    [Property]
    public void Plan_AnyMix_AddsUpAndNeverPassesTheVolume(ushort decilitres, ushort percentStep, byte stepCount)
    {
        var (step, percent) = ((1 + stepCount) / 100.0, percentStep * 100.0 / ushort.MaxValue);
        var volume = Math.Max(step, decilitres / 10.0);
        var recipe = FreshMix.Plan(volume, percent, step);
        Assert.True(recipe.ConcentrateLitres >= 0 && recipe.WaterLitres >= 0);
        Assert.Equal(recipe.MixedLitres, recipe.ConcentrateLitres + recipe.WaterLitres, tolerance: 1e-9);
        Assert.InRange(recipe.MixedLitres, volume - step - 1e-9, volume + 1e-7);
        Assert.Equal(recipe.MixedLitres * percent / 100, recipe.ConcentrateLitres, tolerance: (step / 2) + 1e-9);
        Assert.Equal(recipe.ConcentrateLitres, recipe.MixedLitres * recipe.ExpectedPercent / 100, tolerance: 1e-9);
        Assert.Equal(recipe.ExpectedPercent, percent + recipe.RoundingPercent, tolerance: 1e-9);
    }

    [Theory]
    [InlineData("volumeLitres", 0.05, 5, 0.1)]
    [InlineData("volumeLitres", 1_000_001, 5, 0.1)]
    [InlineData("percent", 100, 100.1, 0.1)]
    [InlineData("percent", 100, double.NaN, 0.1)]
    [InlineData("measurableLitres", 100, 5, 0)]
    public void Plan_OutOfRange_IsRefusedByName(string argument, double volume, double percent, double measurable) =>
        Assert.Throws<ArgumentOutOfRangeException>(argument, () => FreshMix.Plan(volume, percent, measurable));
}
