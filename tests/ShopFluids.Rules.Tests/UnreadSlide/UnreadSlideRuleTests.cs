using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.UnreadSlide;

namespace ShopFluids.Rules.Tests.UnreadSlide;

public sealed class UnreadSlideRuleTests
{
    private static readonly DateTime Until = Some.Now;

    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    [InlineData(1, true)]
    public void EvaluateClock_AroundTheEndOfTheWindow_IsFlaggedFromIt(int ticks, bool isFound)
    {
        var raised = Judged(Standing(TaskKind.ReadSlide), Until.AddTicks(ticks));

        Assert.Equal(isFound ? [(ParameterCodes.Bacteria, Verdict.Warning, Direction.None)] : [], raised.Select(f => (f.Parameter, f.Severity, f.Direction)));
    }

    [Theory]
    [InlineData(59, 0)]
    [InlineData(60, 1)]
    [InlineData(60 * 50, 50)]
    public void EvaluateClock_Late_CarriesWholeHours(int minutes, int hours) =>
        Assert.Equal(hours, Assert.Single(Judged(Standing(TaskKind.ReadSlide), Until.AddMinutes(minutes))).Numbers[NumberNames.HoursLate]);

    [Fact]
    public void EvaluateClock_SeveralLate_RaisesOneForTheLongestLate()
    {
        var standing = Some.Standing(tasks:
        [
            Some.Task(TaskKind.ReadSlide, UnreadSlideRule.CauseOf(Some.Id(1)), Until),
            Some.Task(TaskKind.ReadSlide, UnreadSlideRule.CauseOf(Some.Id(2)), Until.AddHours(-5), 201),
        ]);

        Assert.Equal(5, Assert.Single(Judged(standing, Until)).Numbers[NumberNames.HoursLate]);
    }

    [Fact]
    public void CauseOf_Slide_TellsWhichOne() => Assert.Equal("slide:00000001000000000000000000000000", UnreadSlideRule.CauseOf(Some.Id(1)));

    [Fact]
    public void EvaluateClock_FlaggedAlready_RaisesNothing() =>
        Assert.Empty(Judged(Standing(TaskKind.ReadSlide) with { OpenFlags = [Some.Flag(UnreadSlideRule.RuleCode, ParameterCodes.Bacteria, Verdict.Warning, Direction.None)] }, Until.AddDays(3)));

    [Fact]
    public void EvaluateClock_OtherLateWork_IsNoSlide() => Assert.Empty(Judged(Standing(TaskKind.Skim), Until.AddDays(3)));

    [Fact]
    public void EvaluateClock_SwitchedOff_RaisesNothing() =>
        Assert.DoesNotContain(RulesService.EvaluateClock(Standing(TaskKind.ReadSlide), Some.Calendar(), Some.SwitchedOff(UnreadSlideRule.RuleCode), Until), f => f.Rule == UnreadSlideRule.RuleCode);

    // It is no reading that ends it: only what becomes of the slide.
    [Fact]
    public void Evaluate_AReading_LeavesTheFlag()
    {
        var standing = Standing(TaskKind.ReadSlide) with { OpenFlags = [Some.Flag(UnreadSlideRule.RuleCode, ParameterCodes.Bacteria, Verdict.Warning, Direction.None)] };

        Assert.Empty(RulesService.Evaluate(Some.Input(Some.Reading(new MeasurementFacts(ParameterCodes.Bacteria, "", 3, 0)), standing)).Cleared);
    }

    private static StandingFacts Standing(TaskKind kind) => Some.Standing(tasks: [Some.Task(kind, UnreadSlideRule.CauseOf(Some.Id(1)), Until)]);

    private static List<RaisedFlag> Judged(StandingFacts standing, DateTime now) =>
        [.. RulesService.EvaluateClock(standing, Some.Calendar(), Some.NoTunings, now).Where(f => f.Rule == UnreadSlideRule.RuleCode)];
}
