using ShopFluids.Rules.Findings;
using ShopFluids.Rules.SuddenChange;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.SuddenChange;

/// <summary>What of a change in concentration is explained by what was put in, taken out and lost. The sump holds 1 L for each mm.</summary>
public sealed class ExplainedChangeTests
{
    [Fact]
    public void Check_TopUpWithWater_IsNoFinding()
    {
        // 200 L of 6 % and 100 L of water are 300 L of 4 %.
        var charge = Steady(200);
        charge.After(-6).Moves(water: 100).After(6);

        Assert.Null(Read(charge, 4.0m, 300).Open);
    }

    [Fact]
    public void Check_SameFallWithoutATopUp_IsAFinding() => Assert.Equal(Direction.Low, Read(Steady(200), 4.0m, 200).Open?.Direction);

    [Fact]
    public void Check_TopUpThatLeftNoTrace_IsAFinding()
    {
        // By the record 4.0 %, but still 6.1 % was found: the water did not get in, or somebody put concentrate in.
        var charge = Steady(200);
        charge.After(-6).Moves(water: 100).After(6);

        Read(charge, 6.1m, 300);

        Assert.Equal((Direction.High, -2.0m), (charge.Open?.Direction, charge.Open?.Numbers[NumberNames.ExpectedChange]));
    }

    [Fact]
    public void Check_ConcentrateAdded_IsExplained()
    {
        // (200 x 6.0 % + 4 L) / 204 L = 7.84 %.
        var charge = Steady(200);
        charge.After(-6).Moves(concentrate: 4).After(6);

        Assert.Null(Read(charge, 7.8m, 204).Open);
    }

    [Fact]
    public void Check_SwapOfHalf_IsExplained()
    {
        // 100 L out, 100 L of water in: half of 6.0 %.
        var charge = Steady(200);
        charge.After(-6).Moves(removed: 100).Moves(water: 100).After(6);

        Assert.Null(Read(charge, 3.0m, 200).Open);
    }

    [Theory]
    [InlineData("6.0", false)]
    [InlineData("8.0", false)]
    [InlineData("8.5", false)]
    [InlineData("8.6", true)]
    [InlineData("5.5", false)]
    [InlineData("5.4", true)]
    public void Check_FluidWentMissing_IsMixOrWater(string percent, bool flagged)
    {
        // 200 L became 150 L: 6.0 % if it was mix, 8.0 % if it was water, and anything between. 0.5 more is not worth a second look.
        var charge = Read(Steady(200), decimal.Parse(percent, System.Globalization.CultureInfo.InvariantCulture), 150);

        Assert.Equal(flagged, charge.Open is not null);
    }

    [Fact]
    public void Check_AdditionButNoVolume_HasNoOpinion()
    {
        var charge = Steady(null);
        charge.After(-6).Moves(water: 100).After(6);

        Assert.Empty(charge.Reads(Some.Measured(ParameterCodes.Concentration, 4.0m)));
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(2, 1)]
    [InlineData(3, 0)]
    public void Check_LevelOfAnEarlierReading_TellsTheVolumeForTwoWeeks(int weeksBefore, int opinions)
    {
        var charge = new Charge(new SuddenChangeRule());
        for (var week = 9; week >= 0; week--)
        {
            Read(charge, week % 2 == 0 ? 6.0m : 6.1m, week == weeksBefore ? 200 : null);
        }

        charge.After(-6).Moves(water: 100).After(6);

        Assert.Equal(opinions, charge.Reads(Some.Measured(ParameterCodes.Concentration, 4.0m)).Count);
        Assert.Null(charge.Open);
    }

    [Fact]
    public void Check_MoreTakenOutThanWasThere_HasNoOpinion()
    {
        var charge = Steady(200);
        charge.After(-6).Moves(removed: 250).After(6);

        Assert.Empty(charge.Reads(Some.Measured(ParameterCodes.Concentration, 4.0m), Some.Measured(ParameterCodes.Level, 200)));
    }

    // 250 L out of 200 L: of the fluid that was there nothing is known to be left.
    [Fact]
    public void Check_MoreTakenOutThanWasThere_IsAnExchangeOfAllOfIt()
    {
        var charge = new Charge(new SuddenChangeRule());
        for (var week = 0; week < 10; week++)
        {
            charge.Reads(Some.Measured(ParameterCodes.Ph, week % 2 == 0 ? 9.1m : 9.0m), Some.Measured(ParameterCodes.Level, 200));
            charge.After(7);
        }

        charge.After(-6).Moves(removed: 250).After(6);

        Assert.Empty(charge.Reads(Some.Measured(ParameterCodes.Ph, 8.0m), Some.Measured(ParameterCodes.Level, 200)));
    }

    // Ten weeks at 6.0 to 6.1 %.
    private static Charge Steady(int? level)
    {
        var charge = new Charge(new SuddenChangeRule());
        for (var week = 0; week < 10; week++)
        {
            Read(charge, week % 2 == 0 ? 6.1m : 6.0m, level);
        }

        return charge;
    }

    private static Charge Read(Charge charge, decimal percent, int? level)
    {
        charge.Reads([Some.Measured(ParameterCodes.Concentration, percent), .. level is { } mm ? [Some.Measured(ParameterCodes.Level, mm)] : Array.Empty<Facts.MeasurementFacts>()]);
        return charge.After(7);
    }
}
