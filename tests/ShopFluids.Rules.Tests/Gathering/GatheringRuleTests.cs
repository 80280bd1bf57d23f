using ShopFluids.Rules.Gathering;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Tests.Gathering;

public sealed class GatheringRuleTests
{
    [Fact]
    public void WindowOf_NothingSet_IsTwoShopDays() => Assert.Equal(2, RuleRegistry.Gathering.WindowOf(Some.NoTunings));

    [Theory]
    [InlineData(0)]
    [InlineData(10)]
    public void WindowOf_Set_IsWhatWasSet(int days) =>
        Assert.Equal(days, RuleRegistry.Gathering.WindowOf(Some.Tuned(GatheringRule.RuleCode, (GatheringRule.WindowShopDays, days))));

    [Fact]
    public void WindowOf_SwitchedOff_IsTheSameDay() => Assert.Equal(0, RuleRegistry.Gathering.WindowOf(Some.SwitchedOff(GatheringRule.RuleCode)));

    [Fact]
    public void Check_AnyReading_HasNoOpinionAndAsksForNoWork()
    {
        var rule = RuleRegistry.Gathering;
        var reading = new RuleCase(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Concentration, 3.5m))), rule);

        Assert.Empty(rule.Check(reading));
        Assert.Empty(rule.WorkFor(new FlagKey(ParameterCodes.Concentration, Verdict.Action, Direction.Low), isConfirmed: false));
        Assert.False(rule.AsksForASecondLook);
    }
}
