using ShopFluids.Rules.InstrumentCheck;

namespace ShopFluids.Rules.Tests.InstrumentCheck;

public sealed class CheckJudgeTests
{
    // Stated accuracy 0.2 and steps of 0.1: off by 0.25 at most.
    [Theory]
    [InlineData(0.25, true)]
    [InlineData(0.26, false)]
    [InlineData(-0.25, true)]
    [InlineData(-0.26, false)]
    public void OnScale_OneStandard_PassesUpToAccuracyAndHalfAStep(double shown, bool passes)
    {
        var result = CheckJudge.OnScale([new(0, (decimal)shown)], 0.2m, 0.1m);

        Assert.Equal(new CheckResult(passes, (decimal)shown, null), result);
    }

    [Theory]
    [InlineData(0.1, 10.3, false, 0.1, 102)]
    [InlineData(0.1, 10.2, true, 0.1, 101)]
    [InlineData(0.3, 10.0, false, 0.3, 97)]
    [InlineData(0, 10, true, 0, 100)]
    public void OnScale_TwoStandards_NeedBothAndGiveTheSlope(double first, double second, bool passes, double offset, double slope)
    {
        var result = CheckJudge.OnScale([new(0, (decimal)first), new(10, (decimal)second)], 0.2m, 0.1m);

        Assert.Equal(new CheckResult(passes, (decimal)offset, (decimal)slope), result);
    }

    // Off by how much is told from the standard, and the slope from the distance of the two.
    [Fact]
    public void OnScale_StandardsAwayFromZero_TellOffsetAndSlopeFromThem()
    {
        Assert.Equal(new CheckResult(true, 0.1m, null), CheckJudge.OnScale([new(7, 7.1m)], 0.2m, 0.1m));
        Assert.Equal(new CheckResult(true, -0.1m, 105m), CheckJudge.OnScale([new(6, 5.9m), new(10, 10.1m)], 0.2m, 0.1m));
    }

    [Fact]
    public void OnScale_NoStandard_NothingSpeaksAgainstIt() =>
        Assert.Equal(new CheckResult(true, null, null), CheckJudge.OnScale([], 0.2m, 0.1m));

    [Fact]
    public void OnScale_StandardsTooNear_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => CheckJudge.OnScale([new(7, 7), new(7.99m, 8)], 0.2m, 0.1m));
        Assert.Equal(100m, CheckJudge.OnScale([new(7, 7), new(8, 8)], 0.2m, 0.1m).SlopePercent);
    }

    // Examples of an electrode maker (read), at 25 °C: 98.60 % of theory passes, 81.70 % fails.
    [Theory]
    [InlineData(-15, 160, true, 98.6)]
    [InlineData(15, 160, false, 81.7)]
    public void InMillivolts_MakersExample_IsJudgedBySlopeAndOffset(int inNeutral, int inAcid, bool passes, double slope)
    {
        var result = CheckJudge.InMillivolts(new(7.01m, inNeutral), new(4.01m, inAcid), 25);

        Assert.Equal((passes, (decimal?)(decimal)slope), (result.Passes, result.SlopePercent));
    }

    // 84.96 % is shown as 85.0 %, and the number shown is the number judged; 84.86 % is shown as 84.9 %.
    [Theory]
    [InlineData(150.785, true, 85.0)]
    [InlineData(150.6, false, 84.9)]
    public void InMillivolts_SlopeNearItsLimit_IsJudgedAsItIsShown(double inAcid, bool passes, double shown)
    {
        var result = CheckJudge.InMillivolts(new(7, 0), new(4, (decimal)inAcid), 25);

        Assert.Equal((passes, (decimal?)(decimal)shown), (result.Passes, result.SlopePercent));
    }

    [Theory]
    [InlineData(30, true)]
    [InlineData(31, false)]
    public void InMillivolts_OffsetAtSeven_IsAcceptedUpToThirty(int offset, bool passes) =>
        Assert.Equal(passes, CheckJudge.InMillivolts(new(7, offset), new(4, offset + 177), 25).Passes);
}
