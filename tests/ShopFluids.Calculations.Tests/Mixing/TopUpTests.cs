using MathNet.Numerics;
using ShopFluids.Calculations.Mixing;
using Xunit;

namespace ShopFluids.Calculations.Tests.Mixing;

/// <summary>One worked example for every case; the numbers follow from the mass balance in docs/calculations/mixing.md.</summary>
public sealed class TopUpTests
{
    [Fact]
    public void Plan_PremixWithinLimits_IsAPlainTopUp() =>
        AssertRecipe(TopUp.Plan(Some.TopUp(300, 4, 400, 6, maximum: 12)), TopUpCase.TopUp, concentrate: 12, water: 88, remove: 0, litres: 400, percent: 6);

    [Fact]
    public void Plan_EmptySump_IsAFreshMix() =>
        AssertRecipe(TopUp.Plan(Some.TopUp(0, 0, 400, 6)), TopUpCase.TopUp, concentrate: 24, water: 376, remove: 0, litres: 400, percent: 6);

    // R = (6·400 − 4·300 − 10·100) / (10 − 4) = 33.33 L, taken as 33.4: 266.6 L at 4 % with 133.4 L of premix.
    [Fact]
    public void Plan_TooLittleRoomForTheStrongestPremix_RemovesFirst() =>
        AssertRecipe(
            TopUp.Plan(Some.TopUp(300, 4, 400, 6)),
            TopUpCase.RemoveFirst, concentrate: 13.3, water: 120.1, remove: 33.4, litres: 400, percent: (266.6 * 4 + 1330) / 400);

    // Without removal 5.5 % is reached; a shop that accepts 5.5 % keeps its fluid and is told what an exact hit would cost.
    [Fact]
    public void Plan_TooLittleRoomButAcceptedWithoutRemoval_TopsUpShort()
    {
        var recipe = TopUp.Plan(Some.TopUp(300, 4, 400, 6, acceptedMinimum: 5.5));
        AssertRecipe(recipe, TopUpCase.TopUp, concentrate: 10, water: 90, remove: 0, litres: 400, percent: 5.5);
        Assert.Equal(33.4, recipe.RemoveForExactLitres);
        Assert.Equal(TopUpCase.RemoveFirst, TopUp.Plan(Some.TopUp(300, 4, 400, 6, acceptedMinimum: 5.6)).Case);
    }

    // R' = (10·380 + 1·20 − 8·400) / (10 − 1) = 68.89 L.
    [Fact]
    public void Plan_TooStrongForTheWeakestPremix_EndsHighAndSaysByHowMuch()
    {
        var recipe = TopUp.Plan(Some.TopUp(380, 10, 400, 8, minimum: 1));
        AssertRecipe(recipe, TopUpCase.TopUpEndsHigh, concentrate: 0.2, water: 19.8, remove: 0, litres: 400, percent: 9.55);
        Assert.Equal(1.55, recipe.EndsHighByPercent, 9);
        Assert.Equal(68.9, recipe.RemoveForExactLitres);
    }

    [Fact]
    public void Plan_EndsHighAndExactRemovalWouldUncoverThePump_OffersNone()
    {
        Assert.Equal(68.9, TopUp.Plan(Some.TopUp(380, 10, 400, 8, minimum: 1, intake: 311.1)).RemoveForExactLitres);
        Assert.Null(TopUp.Plan(Some.TopUp(380, 10, 400, 8, minimum: 1, intake: 311.2)).RemoveForExactLitres);
    }

    [Fact]
    public void Plan_RemovalDownToTheIntakeExactly_IsAllowed()
    {
        Assert.Equal(TopUpCase.RemoveFirst, TopUp.Plan(Some.TopUp(300, 4, 400, 6, intake: 266.6)).Case);
        Assert.Equal(TopUpCase.NoRemovalPossible, TopUp.Plan(Some.TopUp(300, 4, 400, 6, intake: 266.7)).Case);
    }

    // Only 20 L may go: 280 L at 4 % and 120 L at 10 % give 5.8 %.
    [Fact]
    public void Plan_RemovalWouldUncoverThePump_GoesAsFarAsItMay() =>
        AssertRecipe(
            TopUp.Plan(Some.TopUp(300, 4, 400, 6, intake: 280)),
            TopUpCase.NoRemovalPossible, concentrate: 12, water: 108, remove: 20, litres: 400, percent: 5.8);

    [Fact]
    public void Plan_PumpAlreadyUncovered_TopsUpWithoutRemoval() =>
        AssertRecipe(
            TopUp.Plan(Some.TopUp(300, 4, 400, 6, intake: 310)),
            TopUpCase.NoRemovalPossible, concentrate: 10, water: 90, remove: 0, litres: 400, percent: 5.5);

    // R = 400 (4 − 6) / (4 − 10) = 133.33 L, taken as 133.4.
    [Fact]
    public void Plan_FullButWeak_SwapsAtLevel() =>
        AssertRecipe(
            TopUp.Plan(Some.TopUp(400, 4, 400, 6)),
            TopUpCase.SwapAtLevel, concentrate: 13.3, water: 120.1, remove: 133.4, litres: 400, percent: (266.6 * 4 + 1330) / 400);

    [Fact]
    public void Plan_FullButStrong_SwapsForTheWeakestPremix() =>
        AssertRecipe(TopUp.Plan(Some.TopUp(400, 10, 400, 8)), TopUpCase.SwapAtLevel, concentrate: 0, water: 80, remove: 80, litres: 400, percent: 8);

    // L = 400 · 8 / 10 = 320 L stay, so that 80 L of water end at the full mark and not above it.
    [Fact]
    public void Plan_OverTheTargetVolumeAndStrong_RemovesDownToTheFullMark() =>
        AssertRecipe(TopUp.Plan(Some.TopUp(420, 10, 400, 8)), TopUpCase.SwapAtLevel, concentrate: 0, water: 80, remove: 100, litres: 400, percent: 8);

    // L = 400 (6 − 10) / (4 − 10) = 266.67 L stay, 153.33 L go, taken as 153.4.
    [Fact]
    public void Plan_OverTheTargetVolumeAndWeak_RemovesDownToTheFullMark() =>
        AssertRecipe(
            TopUp.Plan(Some.TopUp(420, 4, 400, 6)),
            TopUpCase.SwapAtLevel, concentrate: 13.3, water: 120.1, remove: 153.4, litres: 400, percent: (266.6 * 4 + 1330) / 400);

    // 50 L may go at most; the 30 L that fit below the full mark are the most that water can do.
    [Fact]
    public void Plan_OverTheTargetVolumeAndPumpWouldUncover_StillEndsAtTheFullMark() =>
        AssertRecipe(
            TopUp.Plan(Some.TopUp(420, 10, 400, 8, intake: 370)),
            TopUpCase.NoRemovalPossible, concentrate: 0, water: 30, remove: 50, litres: 400, percent: 9.25);

    // 100.06 L of room are 100 L: the nearest step, 100.1, would stand above the full mark.
    [Fact]
    public void Plan_RoomIsNoWholeNumberOfSteps_StaysBelowTheFullMark() =>
        AssertRecipe(TopUp.Plan(Some.TopUp(299.94, 6, 400, 6)), TopUpCase.TopUp, concentrate: 6, water: 94, remove: 0, litres: 399.94, percent: ((299.94 * 6) + 600) / 399.94);

    [Fact]
    public void Plan_FullStrongAndPumpWouldUncover_SaysHowFarItEndsHigh()
    {
        var recipe = TopUp.Plan(Some.TopUp(400, 10, 400, 8, intake: 360));
        AssertRecipe(recipe, TopUpCase.NoRemovalPossible, concentrate: 0, water: 40, remove: 40, litres: 400, percent: 9);
        Assert.Equal(1, recipe.EndsHighByPercent, 9);
    }

    [Fact]
    public void Plan_FullWeakAndNothingMayGo_ProposesNothing() =>
        AssertRecipe(
            TopUp.Plan(Some.TopUp(400, 4, 400, 6, intake: 400)),
            TopUpCase.NoRemovalPossible, concentrate: 0, water: 0, remove: 0, litres: 400, percent: 4);

    [Theory]
    [InlineData(400, 6)]
    [InlineData(415, 6)]
    [InlineData(399.96, 6)]
    [InlineData(400, 5.8)]
    [InlineData(400, 6.2)]
    public void Plan_FullAndOnTargetWithinUncertainty_IsNothingToAdd(double volume, double percent)
    {
        var recipe = TopUp.Plan(Some.TopUp(volume, percent, 400, 6, percentUncertainty: 0.25));
        AssertRecipe(recipe, TopUpCase.NothingToAdd, concentrate: 0, water: 0, remove: 0, litres: volume, percent: percent);
        Assert.Equal(0.25, recipe.UncertaintyPercent, 12);
        Assert.Equal(0, recipe.PremixPercent);
    }

    [Theory]
    [InlineData(5.7)]
    [InlineData(6.3)]
    public void Plan_FullAndOffTargetBeyondUncertainty_Swaps(double percent) =>
        Assert.Equal(TopUpCase.SwapAtLevel, TopUp.Plan(Some.TopUp(400, percent, 400, 6, percentUncertainty: 0.25)).Case);

    [Theory]
    [InlineData(5, TopUpCase.NothingToAdd)]
    [InlineData(4.9, TopUpCase.SwapAtLevel)]
    [InlineData(8, TopUpCase.NothingToAdd)]
    [InlineData(8.1, TopUpCase.SwapAtLevel)]
    public void Plan_FullWithAnAcceptedBand_SwapsOnlyOutsideIt(double percent, TopUpCase expected) =>
        Assert.Equal(expected, TopUp.Plan(Some.TopUp(400, percent, 400, 6, acceptedMinimum: 5, acceptedMaximum: 8)).Case);

    // The target volume is the brim, which is no whole number of steps: the last step is left out instead of spilled.
    [Fact]
    public void Plan_ToTheBrimWithCoarseSteps_StaysBelowIt()
    {
        var recipe = TopUp.Plan(Some.TopUp(300, 6, 400.9, 6, brim: 400.9, measurable: 1));
        Assert.Equal(400, recipe.ExpectedLitres, 9);
        Assert.Equal(6, recipe.ConcentrateLitres);
        Assert.Equal(94, recipe.WaterLitres);
    }

    // 0.2 % premix of 20 L is 0.04 L: what cannot be measured is said in the result, not hidden.
    [Fact]
    public void Plan_PremixTooThinToMeasure_TellsWhatTheRoundedAmountsGive()
    {
        var recipe = TopUp.Plan(Some.TopUp(380, 8, 400, 7.61));
        Assert.Equal(0, recipe.ConcentrateLitres);
        Assert.Equal(20, recipe.WaterLitres);
        Assert.Equal(7.6, recipe.ExpectedPercent, 9);
    }

    // 0.78 L in 8 L are asked for; the nearest half litre, 1.0, would make a premix of 12.5 % where 10 % is the most.
    [Fact]
    public void Plan_RoundingWouldPassTheStrongestPremix_TakesTheStepBelow()
    {
        var recipe = TopUp.Plan(Some.TopUp(390, 6, 398, 6.075, measurable: 0.5));
        Assert.Equal(TopUpCase.TopUp, recipe.Case);
        Assert.Equal((0.5, 7.5), (recipe.ConcentrateLitres, recipe.WaterLitres));
    }

    // 0.21 L in 20 L are asked for; the nearest half litre, 0, would be weaker than 1 %.
    [Fact]
    public void Plan_RoundingWouldPassTheWeakestPremix_TakesTheStepAbove()
    {
        var recipe = TopUp.Plan(Some.TopUp(380, 6, 400, 5.7525, minimum: 1, measurable: 0.5));
        Assert.Equal(TopUpCase.TopUp, recipe.Case);
        Assert.Equal((0.5, 19.5), (recipe.ConcentrateLitres, recipe.WaterLitres));
    }

    // 18 L of three-litre steps hold no whole step of concentrate between 1 and 10 %: the nearest, 3 L, passes the target by itself.
    [Fact]
    public void Plan_CoarseStepPassesTheTarget_OffersNoRemoval()
    {
        var recipe = TopUp.Plan(Some.TopUp(380, 5.5, 400, 6, minimum: 1, measurable: 3));
        AssertRecipe(recipe, TopUpCase.TopUp, concentrate: 3, water: 15, remove: 0, litres: 398, percent: 2390 / 398.0);
        Assert.Null(recipe.RemoveForExactLitres);
    }

    // The weakest premix, 0.3 %, would end high; the nearest five-litre step of concentrate is none at all, which does not.
    [Fact]
    public void Plan_CoarseStepMeetsTheTarget_DoesNotEndHigh()
    {
        var recipe = TopUp.Plan(Some.TopUp(380, 8, 400, 7.61, minimum: 0.3, measurable: 5));
        AssertRecipe(recipe, TopUpCase.TopUp, concentrate: 0, water: 20, remove: 0, litres: 400, percent: 7.6);
        Assert.Null(recipe.RemoveForExactLitres);
    }

    // The full mark lies one measurable step up at least, so that an empty sump never stays empty.
    [Fact]
    public void Plan_SmallestSump_HoldsOneStepOfPremix() =>
        AssertRecipe(
            TopUp.Plan(Some.TopUp(0, 0, 0.1, 100, intake: 0, maximum: 100)), TopUpCase.TopUp, concentrate: 0.1, water: 0, remove: 0, litres: 0.1, percent: 100);

    // Oracle: numerical derivatives (MathNet) of the mass balance at the recipe's own amounts.
    [Theory]
    [InlineData(300, 4)]
    [InlineData(380, 10)]
    [InlineData(400, 10)]
    [InlineData(350, 6)]
    public void Plan_Uncertainty_AgreesWithNumericalPropagation(double volume, double percent)
    {
        var recipe = TopUp.Plan(Some.TopUp(volume, percent, 400, 6, volumeUncertainty: 8, percentUncertainty: 0.3));
        double After(double v, double c) =>
            ((c * (v - recipe.RemoveLitres)) + (100 * recipe.ConcentrateLitres)) / (v - recipe.RemoveLitres + recipe.ConcentrateLitres + recipe.WaterLitres);
        var byVolume = Differentiate.FirstDerivative(v => After(v, percent), volume);
        var byPercent = Differentiate.FirstDerivative(c => After(volume, c), percent);
        Assert.Equal(Math.Sqrt((byVolume * byVolume * 64) + (byPercent * byPercent * 0.09)), recipe.UncertaintyPercent, 6);
    }

    [Theory]
    [InlineData("VolumeLitres", 420.1, 4, 400, 6, 0, 10, 420, 100, 0.1)]
    [InlineData("VolumeLitres", -1, 4, 400, 6, 0, 10, 420, 100, 0.1)]
    [InlineData("ConcentrationPercent", 300, 100.1, 400, 6, 0, 10, 420, 100, 0.1)]
    [InlineData("ConcentrationPercent", 300, -0.1, 400, 6, 0, 10, 420, 100, 0.1)]
    [InlineData("TargetVolumeLitres", 300, 4, 420.1, 6, 0, 10, 420, 100, 0.1)]
    [InlineData("TargetVolumeLitres", 300, 4, 99, 6, 0, 10, 420, 100, 0.1)]
    [InlineData("TargetPercent", 300, 4, 400, 0, 0, 10, 420, 100, 0.1)]
    [InlineData("TargetPercent", 300, 4, 400, double.NaN, 0, 10, 420, 100, 0.1)]
    [InlineData("PremixMinimumPercent", 300, 4, 400, 6, 6.1, 10, 420, 100, 0.1)]
    [InlineData("PremixMinimumPercent", 300, 4, 400, 6, -0.1, 10, 420, 100, 0.1)]
    [InlineData("PremixMaximumPercent", 300, 4, 400, 6, 0, 5.9, 420, 100, 0.1)]
    [InlineData("PremixMaximumPercent", 300, 4, 400, 6, 0, 100.1, 420, 100, 0.1)]
    [InlineData("BrimLitres", 0, 4, 400, 6, 0, 10, 0, 100, 0.1)]
    [InlineData("PumpIntakeLitres", 300, 4, 400, 6, 0, 10, 420, 421, 0.1)]
    [InlineData("PumpIntakeLitres", 300, 4, 400, 6, 0, 10, 420, -1, 0.1)]
    [InlineData("MeasurableLitres", 300, 4, 400, 6, 0, 10, 420, 100, 0)]
    public void Request_OutOfRange_IsRefusedByName(
        string argument, double volume, double percent, double targetVolume, double targetPercent, double minimum, double maximum, double brim, double intake, double measurable) =>
        Assert.Throws<ArgumentOutOfRangeException>(
            argument, () => Some.TopUp(volume, percent, targetVolume, targetPercent, minimum, maximum, brim, intake, measurable));

    [Fact]
    public void Request_AcceptedBandOnTheWrongSideOfTheTarget_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("AcceptedMinimumPercent", () => Some.TopUp(300, 4, 400, 6, acceptedMinimum: 6.1));
        Assert.Throws<ArgumentOutOfRangeException>("AcceptedMaximumPercent", () => Some.TopUp(300, 4, 400, 6, acceptedMaximum: 5.9));
    }

    private static void AssertRecipe(TopUpRecipe recipe, TopUpCase kind, double concentrate, double water, double remove, double litres, double percent)
    {
        Assert.Equal(kind, recipe.Case);
        Assert.Equal((concentrate, water, remove), (recipe.ConcentrateLitres, recipe.WaterLitres, recipe.RemoveLitres));
        Assert.Equal(litres, recipe.ExpectedLitres, 9);
        Assert.Equal(percent, recipe.ExpectedPercent, 9);
        if (kind is not (TopUpCase.TopUpEndsHigh or TopUpCase.NoRemovalPossible))
        {
            Assert.Equal(0, recipe.EndsHighByPercent);
        }
    }

    // 125 L at 5 % hold 6.25 L of concentrate. 4 L out take 0.2 L along; 10 L of water and 2 L of concentrate come in: 8.05 L in 133 L.
    [Theory]
    [InlineData(4, 10, 2, 133, 6.0526)]
    [InlineData(0, 0, 0, 125, 5)]
    [InlineData(200, 10, 0, 10, 0)]
    [InlineData(125, 0, 0, 0, 0)]
    [InlineData(0, 0, 10, 135, 12.037)]
    public void After_OtherAmounts_IsTheMassBalance(double removed, double water, double concentrate, double litres, double percent)
    {
        var (after, strength) = Recipe().After([new(removed, water, concentrate)]);

        Assert.Equal((litres, percent), (after, Math.Round(strength, 4)));
    }

    // What is taken out second takes along what was poured in first: 10 L of concentrate make 135 L at 12.037 %, of which half goes.
    [Fact]
    public void After_SeveralInOrder_TakesOutOfWhatThereIsThen()
    {
        var (after, strength) = Recipe().After([new(0, 0, 10), new(67.5, 67.5, 0)]);

        Assert.Equal((135, 6.0185), (after, Math.Round(strength, 4)));
    }

    private static TopUpRecipe Recipe() => TopUp.Plan(Some.TopUp(125, 5, 170, 8, 1, 15, 200, 30));
}
