using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Idle;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.UnreadSlide;

namespace ShopFluids.Rules.Tests;

/// <summary>What the passing of time raises, what work follows, and since when it has been so.</summary>
public sealed class ClockTests
{
    private static readonly ShopCalendar Calendar = Some.Calendar();

    // Late since five hours and since one; what is due in an hour, and work of another kind, are not.
    private static readonly OpenTask[] Tasks =
    [
        Some.Task(TaskKind.Test, "step:a", Some.Now.AddHours(-5)),
        Some.Task(TaskKind.Test, "step:b", Some.Now.AddHours(-1), 201),
        Some.Task(TaskKind.Test, "step:c", Some.Now.AddHours(1), 202),
        Some.Task(TaskKind.ReadSlide, "slide:a", Some.Now.AddHours(-7), 203),
        Some.Task(TaskKind.ReadSlide, "slide:b", Some.Now.AddHours(-3), 204),
        Some.Task(TaskKind.ReadSlide, "slide:c", Some.Now.AddHours(2), 205),
        Some.Task(TaskKind.Skim, "step:d", Some.Now.AddMinutes(-10), 206),
    ];

    [Theory]
    [InlineData(OverdueTestRule.Code, -1)]
    [InlineData(UnreadSlideRule.RuleCode, -3)]
    [InlineData(IdleRule.RuleCode, -100)]
    public void ClockBeganAt_EachRule_IsWhenItsLatestBecameSo(string rule, int hours)
    {
        var standing = Some.Standing(tasks: Tasks, latest: [(ParameterCodes.Ph, Some.Latest(9, Some.Now.AddHours(-200)))]) with { LastMovedAt = Some.Now.AddHours(-100) };

        Assert.Equal(Some.Now.AddHours(hours), RulesService.ClockBeganAt(rule, standing, Some.Now));
    }

    [Fact]
    public void ClockBeganAt_RuleThatIsNotTheClocks_IsAWrongCall() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => RulesService.ClockBeganAt("drift", Some.Standing(), Some.Now));

    // Nobody has read the sump for a month; a test and a slide are late.
    [Fact]
    public void EvaluateClock_AllThree_RaisesEachOnce()
    {
        var standing = Some.Standing(tasks: [Some.Task(TaskKind.Test, "step:a", Some.Now.AddDays(-9)), Some.Task(TaskKind.ReadSlide, "slide:a", Some.Now, 201)]);

        var raised = RulesService.EvaluateClock(standing, Calendar, Some.NoTunings, Some.Now);

        Assert.Equal([OverdueTestRule.Code, IdleRule.RuleCode, UnreadSlideRule.RuleCode], raised.Select(f => f.Rule));
    }

    // A late test and an unread slide are their own work; a standing machine is circulated, then tested, by the end of the shop day.
    [Fact]
    public void WorkOfClock_Raised_IsThatOfTheStandingMachine()
    {
        var tasks = RulesService.WorkOfClock([Flag(OverdueTestRule.Code), Flag(UnreadSlideRule.RuleCode), Flag(IdleRule.RuleCode)], [], Calendar, Some.Now);

        Assert.Equal([(TaskKind.Circulate, "idle:"), (TaskKind.Test, "idle:")], tasks.Select(t => (t.Kind, t.Cause)));
        Assert.All(tasks, t => Assert.Equal((null, Calendar.EndOf(new(2026, 3, 4)), false), (t.StepId, t.DueAt, t.FromRecipe)));
    }

    [Theory]
    [InlineData(TaskKind.Circulate, "idle:", new[] { TaskKind.Test })]
    [InlineData(TaskKind.Test, "idle:", new[] { TaskKind.Circulate })]
    [InlineData(TaskKind.Circulate, "limit:odour", new[] { TaskKind.Circulate, TaskKind.Test })]
    [InlineData(TaskKind.Skim, "idle:", new[] { TaskKind.Circulate, TaskKind.Test })]
    public void WorkOfClock_OpenAlready_IsNotAskedForAgain(TaskKind kind, string cause, TaskKind[] asked) =>
        Assert.Equal(asked, RulesService.WorkOfClock([Flag(IdleRule.RuleCode)], [Some.Task(kind, cause)], Calendar, Some.Now).Select(t => t.Kind));

    private static RaisedFlag Flag(string rule) => new(rule, 1, "", Verdict.Warning, Direction.None, new Dictionary<string, decimal>());
}
