using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.OverdueTest;

public sealed class OverdueTestRuleTests
{
    private static readonly string Cause = CareSchedule.CauseOf(Some.StepId);
    private static readonly ShopCalendar Calendar = Some.Calendar();

    // A sump of these tests stands for long without a sign of life; that is another rule's.
    private static List<RaisedFlag> Late(StandingFacts standing, ShopCalendar calendar, DateTime now) =>
        [.. RulesService.EvaluateClock(standing, calendar, Some.NoTunings, now).Where(f => f.Rule == OverdueTestRule.Code)];

    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    [InlineData(1, true)]
    public void EvaluateClock_AtTheDueMoment_TestIsLate(int ticks, bool raised)
    {
        var standing = Some.Standing(tasks: [Some.Task(TaskKind.Test, Cause, Some.Now)]);

        Assert.Equal(raised, Late(standing, Calendar, Some.Now.AddTicks(ticks)).Count == 1);
    }

    [Fact]
    public void EvaluateClock_LateTest_FlagIsAboutTheSumpAndCarriesWholeHoursAndShopDays()
    {
        // Due at the end of Wednesday 2026-03-04; seen on Monday at 07:30: Thursday, Friday and Monday have begun, the weekend is closed.
        var due = Calendar.EndOf(new(2026, 3, 4));
        var standing = Some.Standing(tasks: [Some.Task(TaskKind.Test, Cause, due)]);

        var flag = Assert.Single(Late(standing, Calendar, due.AddDays(4).AddMinutes(90)));

        Assert.Equal((OverdueTestRule.Code, "", Verdict.Warning, Direction.None), (flag.Rule, flag.Parameter, flag.Severity, flag.Direction));
        Assert.Equal(new Dictionary<string, decimal> { [NumberNames.HoursLate] = 97m, [NumberNames.ShopDaysLate] = 3m }, flag.Numbers);
    }

    [Theory]
    [InlineData(0, 0, 1)]
    [InlineData(59, 0, 1)]
    [InlineData(60, 1, 1)]
    [InlineData(1440, 24, 2)]
    public void EvaluateClock_MinutesLate_CountsWholeHoursAndBegunShopDays(int minutes, int hours, int shopDays)
    {
        var due = Calendar.EndOf(new(2026, 3, 4));
        var standing = Some.Standing(tasks: [Some.Task(TaskKind.Test, Cause, due)]);

        var numbers = Assert.Single(Late(standing, Calendar, due.AddMinutes(minutes))).Numbers;

        Assert.Equal((hours, shopDays), ((int)numbers[NumberNames.HoursLate], (int)numbers[NumberNames.ShopDaysLate]));
    }

    [Fact]
    public void EvaluateClock_FlagOpenAlready_RaisesNothing()
    {
        var standing = Some.Standing(flags: [OverdueFlag], tasks: [Some.Task(TaskKind.Test, Cause, Some.Now)]);

        Assert.Empty(Late(standing, Calendar, Some.Now));
    }

    [Fact]
    public void EvaluateClock_SeveralLateTests_RaisesOneForTheLongestOverdue()
    {
        var standing = Some.Standing(tasks: [Some.Task(TaskKind.Test, "step:b", Some.Now.AddHours(-1)), Some.Task(TaskKind.Test, "step:a", Some.Now.AddHours(-5), 201)]);

        Assert.Equal(5m, Assert.Single(Late(standing, Calendar, Some.Now)).Numbers[NumberNames.HoursLate]);
    }

    [Fact]
    public void EvaluateClock_OtherLateWork_IsNoLateTest() =>
        Assert.Empty(Late(Some.Standing(tasks: [Some.Task(TaskKind.Skim, Cause, Some.Now)]), Calendar, Some.Now));

    [Fact]
    public void Evaluate_ReadingCompletesTheLateTest_ClearsTheFlag()
    {
        var standing = Some.Standing(flags: [OverdueFlag], tasks: [Some.Task(TaskKind.Test, Cause, Some.Now.AddDays(-1))]);

        var evaluation = RulesService.Evaluate(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Ph, 9m)), standing, plan: [Some.Step(parameters: [ParameterCodes.Ph])]));

        Assert.Equal([OverdueFlag.Id], evaluation.Cleared);
    }

    [Fact]
    public void Evaluate_AnotherTestStillLate_FlagStays()
    {
        var standing = Some.Standing(
            flags: [OverdueFlag],
            tasks: [Some.Task(TaskKind.Test, Cause, Some.Now.AddDays(-1)), Some.Task(TaskKind.Test, CareSchedule.CauseOf(Some.Id(901)), Some.Now.AddDays(-1), 201)]);
        CareStepFacts[] plan = [Some.Step(parameters: [ParameterCodes.Ph]), Some.Step(id: Some.Id(901), parameters: [ParameterCodes.Bacteria])];

        var evaluation = RulesService.Evaluate(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Ph, 9m)), standing, plan: plan));

        Assert.Equal([Some.Id(200)], evaluation.DoneTasks);
        Assert.Empty(evaluation.Cleared);
    }

    [Fact]
    public void Evaluate_LimitFlagOpenToo_IsNotTouched()
    {
        var standing = Some.Standing(flags: [Some.Flag(LimitRule.Code, ParameterCodes.Concentration, Verdict.Warning, Direction.Low)]);

        Assert.Empty(RulesService.Evaluate(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Ph, 9m)), standing)).Cleared);
    }

    private static OpenFlag OverdueFlag => Some.Flag(OverdueTestRule.Code, "", Verdict.Warning, Direction.None, 101);
}
