using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Drift;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.FirstFillDrop;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.OverdueTest;

namespace ShopFluids.Rules.Tests.Advice;

public sealed class RetestAdviceTests
{
    private static readonly OpenFlag Weak = Some.Flag(LimitRule.Code, ParameterCodes.Concentration, Verdict.Action, Direction.Low);
    private static readonly OpenFlag Shallow = Some.Flag(LimitRule.Code, ParameterCodes.Level, Verdict.Warning, Direction.Low, 101);
    private static readonly OpenFlag Slide = Some.Flag(LimitRule.Code, ParameterCodes.Bacteria, Verdict.Action, Direction.High, 102);
    private static readonly OpenFlag Oil = Some.Flag(LimitRule.Code, ParameterCodes.TrampOil, Verdict.Warning, Direction.High, 103);
    private static readonly OpenFlag Late = Some.Flag(OverdueTestRule.Code, "", Verdict.Warning, Direction.None, 104);

    // One recipe answers concentration and level: both flags are left with nothing to do, and both are looked at again.
    [Fact]
    public void After_AdjustmentEnded_AsksForATestOfEachFlagItWasToAnswer()
    {
        var tests = RetestAdvice.After(TaskKind.Adjust, [Weak, Shallow, Slide, Oil, Late], [], Some.Calendar(), Some.Now);

        Assert.Equal([(TaskKind.Test, "limit:concentration"), (TaskKind.Test, "limit:level")], tests.Select(t => (t.Kind, t.Cause)));
        Assert.All(tests, t => Assert.Equal((new DateTime(2026, 3, 5, 5, 0, 0, DateTimeKind.Utc), null, false), (t.DueAt, t.StepId, t.FromRecipe)));
    }

    // By the rule, then by the parameter, whatever order they were raised in.
    [Fact]
    public void After_SeveralFlags_AsksInTheSameOrderAlways()
    {
        var trend = Some.Flag(DriftRule.RuleCode, ParameterCodes.Concentration, Verdict.Warning, Direction.Low, 106);

        var tests = RetestAdvice.After(TaskKind.Adjust, [Shallow, Weak, trend], [], Some.Calendar(), Some.Now);

        Assert.Equal(["drift:concentration", "limit:concentration", "limit:level"], tests.Select(t => t.Cause));
    }

    [Fact]
    public void After_DrainingEnded_AsksForATestOfWhatAskedForIt() =>
        Assert.Equal("limit:bacteria", Assert.Single(RetestAdvice.After(TaskKind.DrainClean, [Weak, Slide], [], Some.Calendar(), Some.Now)).Cause);

    // Whether the oil is off, or the smell gone, only another look tells.
    [Fact]
    public void After_SkimmingOrCirculatingEnded_AsksForALookAtWhatAskedForIt()
    {
        var smell = Some.Flag(LimitRule.Code, ParameterCodes.Odour, Verdict.Warning, Direction.High, 107);

        Assert.Equal(["limit:odour", "limit:tramp-oil"], RetestAdvice.After(TaskKind.Skim, [Weak, Slide, Oil, smell], [], Some.Calendar(), Some.Now).Select(t => t.Cause));
        Assert.Equal("limit:odour", Assert.Single(RetestAdvice.After(TaskKind.Circulate, [Weak, Slide, Oil, smell], [], Some.Calendar(), Some.Now)).Cause);
    }

    [Fact]
    public void After_ClosedDay_IsDueInTheNextOpenShopDay()
    {
        var saturday = new DateTime(2026, 3, 7, 12, 0, 0, DateTimeKind.Utc);

        Assert.Equal(new DateTime(2026, 3, 10, 5, 0, 0, DateTimeKind.Utc), Assert.Single(RetestAdvice.After(TaskKind.Adjust, [Weak], [], Some.Calendar(), saturday)).DueAt);
    }

    [Theory]
    [InlineData(TaskKind.Test, "limit:concentration")]
    [InlineData(TaskKind.Inspect, "limit:concentration")]
    [InlineData(TaskKind.Adjust, "limit:level")]
    public void After_FlagStillHasWork_AsksForNothing(TaskKind kind, string cause) =>
        Assert.Empty(RetestAdvice.After(TaskKind.Adjust, [Weak], [Some.Task(kind, cause)], Some.Calendar(), Some.Now));

    // A test of the plan may be weeks away, and draining by the plan does not answer this flag.
    [Theory]
    [InlineData(TaskKind.Test)]
    [InlineData(TaskKind.DrainClean)]
    public void After_OnlyThePlanHasWork_AsksForTheTest(TaskKind kind) =>
        Assert.Single(RetestAdvice.After(TaskKind.DrainClean, [Slide], [Some.Task(kind, $"step:{Some.StepId}")], Some.Calendar(), Some.Now));

    [Theory]
    [InlineData(TaskKind.ChangeFilter)]
    [InlineData(TaskKind.Inspect)]
    [InlineData(TaskKind.Test)]
    public void After_OtherWork_AsksForNothing(TaskKind ended) =>
        Assert.Empty(RetestAdvice.After(ended, [Weak, Slide, Oil], [], Some.Calendar(), Some.Now));

    [Fact]
    public void After_NoFlagOpen_AsksForNothing() => Assert.Empty(RetestAdvice.After(TaskKind.Adjust, [Late], [], Some.Calendar(), Some.Now));

    [Theory]
    [InlineData(TaskKind.DrainClean, Verdict.Action, true)]
    [InlineData(TaskKind.DrainClean, Verdict.Warning, false)]
    [InlineData(TaskKind.Adjust, Verdict.Action, false)]
    public void OnlyASupervisorSkips_DrainingOfAFlagAtAction_IsForASupervisor(TaskKind kind, Verdict severity, bool expected) =>
        Assert.Equal(expected, CorrectiveWork.OnlyASupervisorSkips(kind, [Some.Flag(LimitRule.Code, ParameterCodes.Bacteria, severity, Direction.High)]));

    [Fact]
    public void OnlyASupervisorSkips_FlagThatAsksForOtherWork_IsForAnybody()
    {
        Assert.False(CorrectiveWork.OnlyASupervisorSkips(TaskKind.DrainClean, [Weak]));
        Assert.False(CorrectiveWork.OnlyASupervisorSkips(TaskKind.DrainClean, []));
        Assert.True(CorrectiveWork.OnlyASupervisorSkips(TaskKind.DrainClean, [Weak, Some.Flag(FirstFillDropRule.Code, ParameterCodes.Ph, Verdict.Action, Direction.Low, 105)]));
    }

    // One recipe does not do for the next reading; one skimming does for all that ask for it.
    [Theory]
    [InlineData(TaskKind.Skim, true, true)]
    [InlineData(TaskKind.DrainClean, true, true)]
    [InlineData(TaskKind.ChangeFilter, true, true)]
    [InlineData(TaskKind.Circulate, true, true)]
    [InlineData(TaskKind.Adjust, true, false)]
    [InlineData(TaskKind.Test, false, false)]
    [InlineData(TaskKind.Inspect, false, false)]
    public void OneIsEnough_Kind_IsWorkOnTheWholeSumpButAdjusting(TaskKind kind, bool isOnWholeSump, bool isEnough) =>
        Assert.Equal((isOnWholeSump, isEnough), (CorrectiveWork.IsOnWholeSump(kind), CorrectiveWork.OneIsEnough(kind)));

    [Theory]
    [InlineData("limit:ph", true)]
    [InlineData("limit:concentration", false)]
    [InlineData("step:ph", false)]
    [InlineData("sudden-change:ph", true)]
    [InlineData("sudden-change:conductivity", true)]
    [InlineData("drift:ph", false)]
    [InlineData("run-dry:level", false)]
    [InlineData("sudden", false)]
    public void AsksForASecondLook_Cause_IsThatOfPhLowOrASuddenChange(string cause, bool expected) => Assert.Equal(expected, CorrectiveWork.AsksForASecondLook(cause));
}
