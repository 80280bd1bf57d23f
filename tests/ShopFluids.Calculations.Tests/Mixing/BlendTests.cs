using FsCheck.Xunit;
using ShopFluids.Calculations.Mixing;
using Xunit;

namespace ShopFluids.Calculations.Tests.Mixing;

/// <summary>Two-liquid blends, dilution and swap: the published examples are in <see cref="MixExamplesTests"/>, here stands what always holds.</summary>
[Properties(MaxTest = 500, Replay = "20260101,20260103")]
public sealed class BlendTests
{
    [Property]
    public void AlligationLitres_AnyBlend_ConservesVolumeAndConcentrate(ushort total, byte lowStep, byte gapStep, byte targetStep)
    {
        var low = lowStep * 50.0 / 255;
        var high = low + 0.1 + (gapStep * 49.0 / 255);
        var target = double.Lerp(low, high, targetStep / 255.0);
        var (highLitres, lowLitres) = Alligation.Litres(total, low, high, target);
        Assert.True(highLitres >= 0 && lowLitres >= 0);
        Assert.Equal(total, highLitres + lowLitres, tolerance: 1e-8);
        Assert.Equal(total * target, (highLitres * high) + (lowLitres * low), tolerance: 1e-6);
    }

    [Property]
    public void LitresToAdd_AnyLiquid_ReachesTheTarget(ushort volume, byte percentStep, byte addedStep, byte share)
    {
        var (percent, added) = (percentStep * 100.0 / 255, addedStep * 100.0 / 255);
        var target = percent == added ? percent : double.Lerp(percent, added, share / 256.0);
        var litres = Dilution.LitresToAdd(volume, percent, added, target);
        Assert.True(litres >= 0);
        Assert.Equal((volume + litres) * target, (volume * percent) + (litres * added), tolerance: 1e-6 * (1 + volume + litres));
    }

    [Property]
    public void LitresToExchange_AnyRefill_ReachesTheTargetAtTheSameLevel(ushort volume, byte percentStep, byte refillStep, byte share)
    {
        var (percent, refill) = (percentStep * 100.0 / 255, refillStep * 100.0 / 255);
        var target = Math.Clamp(double.Lerp(percent, refill, share / 255.0), Math.Min(percent, refill), Math.Max(percent, refill));
        var litres = Swap.LitresToExchange(volume, percent, refill, target);
        Assert.InRange(litres, 0, volume * (1 + 1e-12));
        Assert.Equal(volume * target, ((volume - litres) * percent) + (litres * refill), tolerance: 1e-6 * (1 + volume));
    }

    [Property]
    public void PercentAfterWater_AddedAndLostAgain_IsTheSameConcentration(ushort volume, byte percentStep, ushort water)
    {
        var (litres, percent) = (1.0 + volume, percentStep * 99.0 / 255);
        var thinner = Dilution.PercentAfterWater(litres, percent, water);
        Assert.True(thinner <= percent * (1 + 1e-12));
        Assert.Equal(percent, Dilution.PercentAfterWater(litres + water, thinner, -water), tolerance: 1e-9);
    }

    [Fact]
    public void PercentAfterWater_AllWaterGone_IsNeatConcentrate() => Assert.Equal(100, Dilution.PercentAfterWater(400, 6, -376), 9);

    [Fact]
    public void LitresToAdd_OnTargetAlreadyOrNothingThere_IsNone()
    {
        Assert.Equal(0, Dilution.LitresToAdd(300, 6, 6, 6));
        Assert.Equal(0, Dilution.LitresToAdd(0, 9, 0, 0));
        Assert.Equal(0, Dilution.LitresToAdd(1e300, 9, 0, 9));
        Assert.Equal(6, Dilution.PercentAfterWater(1e300, 6, 0), 12);
    }

    [Fact]
    public void AnyBlend_OutOfRange_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("lowPercent", () => Alligation.Parts(50, 50, 50));
        Assert.Throws<ArgumentOutOfRangeException>("lowPercent", () => Alligation.Parts(60, 50, 55));
        Assert.Throws<ArgumentOutOfRangeException>("highPercent", () => Alligation.Parts(10, 101, 50));
        Assert.Throws<ArgumentOutOfRangeException>("targetPercent", () => Alligation.Parts(10, 90, 91));
        Assert.Throws<ArgumentOutOfRangeException>("totalLitres", () => Alligation.Litres(-1, 10, 90, 50));
        Assert.Throws<ArgumentOutOfRangeException>("targetPercent", () => Dilution.LitresToAdd(300, 9, 0, 10));
        Assert.Throws<ArgumentOutOfRangeException>("targetPercent", () => Dilution.LitresToAdd(300, 9, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>("percent", () => Dilution.LitresToAdd(300, 101, 0, 6));
        Assert.Throws<ArgumentOutOfRangeException>("addedPercent", () => Dilution.LitresToAdd(300, 9, -1, 6));
        Assert.Throws<ArgumentOutOfRangeException>("volumeLitres", () => Dilution.LitresToAdd(double.NaN, 9, 0, 6));
        Assert.Throws<ArgumentOutOfRangeException>("volumeLitres", () => Dilution.PercentAfterWater(0, 9, 1));
        Assert.Throws<ArgumentOutOfRangeException>("percent", () => Dilution.PercentAfterWater(400, -1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("waterLitres", () => Dilution.PercentAfterWater(400, 6, -376.1));
        Assert.Throws<ArgumentOutOfRangeException>("waterLitres", () => Dilution.PercentAfterWater(400, 0, -400));
        Assert.Throws<ArgumentOutOfRangeException>("waterLitres", () => Dilution.PercentAfterWater(400, 6, double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>("targetPercent", () => Swap.LitresToExchange(400, 10, 0, 11));
        Assert.Throws<ArgumentOutOfRangeException>("refillPercent", () => Swap.LitresToExchange(400, 10, -1, 8));
        Assert.Throws<ArgumentOutOfRangeException>("percent", () => Swap.LitresToExchange(400, 101, 0, 8));
        Assert.Throws<ArgumentOutOfRangeException>("volumeLitres", () => Swap.LitresToExchange(-1, 10, 0, 8));
    }
}
