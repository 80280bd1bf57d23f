using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Charges;
using Xunit;

namespace ShopFluids.Core.Tests.Charges;

/// <summary>A sump of 170 L at the full mark. Common practice, no source.</summary>
public sealed class AdditionDoubtsTests
{
    [Theory]
    [InlineData(0, 38, 7)]
    [InlineData(0, 45.5, 0)]
    [InlineData(10, 0, 0)]
    [InlineData(30, 70, 5)]
    public void Of_WhatIsUsual_AsksNothing(double removed, double water, double concentrate) =>
        Assert.Empty(AdditionDoubts.Of(new(removed, water, concentrate), Recipe(remove: 0), 125, 170));

    [Fact]
    public void Of_ConcentrateWithoutWater_IsDoubted() =>
        Assert.Equal([new NeatConcentrate(2)], AdditionDoubts.Of(new(0, 0, 2), recipe: null, 125, 170));

    [Fact]
    public void Of_ConcentrateAloneAsTheRecipeHasIt_IsNot() =>
        Assert.Empty(AdditionDoubts.Of(new(0, 0, 2), Recipe(remove: 0) with { WaterLitres = 0, ConcentrateLitres = 2 }, 125, 170));

    [Fact]
    public void Of_NothingTakenOutFirst_IsDoubtedAboveTheMarkToo() =>
        Assert.Equal([new NothingTakenOut(22), new OverTheMark(190, 20)], AdditionDoubts.Of(new(0, 20, 2), Recipe(remove: 22), 168, 170));

    [Theory]
    [InlineData(46.0, 125.0, true)]
    [InlineData(45.4, 125.0, false)]
    [InlineData(60.0, null, false)]
    public void Of_MoreThanTheMarkHolds_IsDoubtedWhereTheVolumeIsKnown(double water, double? held, bool isDoubted) =>
        Assert.Equal(isDoubted ? [new OverTheMark(171, 1)] : Array.Empty<AdditionDoubt>(), AdditionDoubts.Of(new(0, water, 0), recipe: null, held, 170));

    // 125 L at 8 %: 2.5 L of concentrate in 40 L of water is meant, 25 L are typed.
    [Theory]
    [InlineData(8.0, 2.5, false)]
    [InlineData(8.0, 25.0, true)]
    [InlineData(11.5, 25.0, false)]
    public void Of_MixtureComesAboveItsLimit_IsDoubtedWhereItWasWithin(double percent, double concentrate, bool isDoubted)
    {
        var doubts = AdditionDoubts.Of(new(40, 15, concentrate), recipe: null, 125, 170, new(percent, 11));

        Assert.Equal(isDoubted ? [new TooStrong(((85 * 8) + 2500) / 125.0, 11)] : Array.Empty<AdditionDoubt>(), doubts);
    }

    // A recipe that ends above the mark has been shown with its reason.
    [Fact]
    public void Of_NoHigherThanTheRecipeEnds_IsNotDoubted() =>
        Assert.Empty(AdditionDoubts.Of(new(0, 10, 1), Recipe(remove: 0) with { ExpectedLitres = 186 }, 175, 170));

    private static TopUpRecipe Recipe(double remove) => new(remove > 0 ? TopUpCase.RemoveFirst : TopUpCase.TopUp, 7, 38, remove, 15, 170, 8, 0.2, 0, null);
}
