using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Charges;
using Xunit;

namespace ShopFluids.Core.Tests.Charges;

/// <summary>A sump of 170 L at the full mark and 200 L at the brim. Common practice, no source.</summary>
public sealed class AdditionDoubtsTests
{
    [Theory]
    [InlineData(0, 38, 7)]
    [InlineData(0, 45.5, 0)]
    [InlineData(0, 75, 1)]
    [InlineData(10, 0, 0)]
    [InlineData(30, 70, 5)]
    public void Of_WhatIsUsualOrRefused_AsksNothing(double removed, double water, double concentrate) =>
        Assert.Empty(AdditionDoubts.Of(new(removed, water, concentrate), Recipe(remove: 0), 125, 170, 200));

    [Fact]
    public void Of_ConcentrateWithoutWater_IsDoubted() =>
        Assert.Equal([AdditionDoubt.NeatConcentrate], AdditionDoubts.Of(new(0, 0, 2), recipe: null, 125, 170, 200));

    [Fact]
    public void Of_ConcentrateAloneAsTheRecipeHasIt_IsNot() =>
        Assert.Empty(AdditionDoubts.Of(new(0, 0, 2), Recipe(remove: 0) with { WaterLitres = 0, ConcentrateLitres = 2 }, 125, 170, 200));

    [Fact]
    public void Of_NothingTakenOutFirst_IsDoubtedAboveTheMarkToo() =>
        Assert.Equal(
            [AdditionDoubt.NothingTakenOut, AdditionDoubt.OverTheMark],
            AdditionDoubts.Of(new(0, 20, 2), Recipe(remove: 22), 168, 170, 200));

    [Theory]
    [InlineData(45.6, 125.0, true)]
    [InlineData(45.4, 125.0, false)]
    [InlineData(60.0, null, false)]
    public void Of_MoreThanTheMarkHolds_IsDoubtedWhereTheVolumeIsKnown(double water, double? held, bool isDoubted) =>
        Assert.Equal(isDoubted ? [AdditionDoubt.OverTheMark] : [], AdditionDoubts.Of(new(0, water, 0), recipe: null, held, 170, 200));

    // A recipe that ends above the mark has been shown with its reason.
    [Fact]
    public void Of_NoHigherThanTheRecipeEnds_IsNotDoubted() =>
        Assert.Empty(AdditionDoubts.Of(new(0, 10, 1), Recipe(remove: 0) with { ExpectedLitres = 186 }, 175, 170, 200));

    private static TopUpRecipe Recipe(double remove) => new(remove > 0 ? TopUpCase.RemoveFirst : TopUpCase.TopUp, 7, 38, remove, 15, 170, 8, 0.2, 0, null);
}
