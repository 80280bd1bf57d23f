using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Judging;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.SuddenChange;

namespace ShopFluids.Rules.Tests.Advice;

/// <summary>Which work a reading asks for, when several flags and steps want some.</summary>
public sealed class WorkPlanTests
{
    private static readonly CareStepFacts Skim = Some.Step(TaskKind.Skim, anchor: new(2026, 3, 6));

    // Two rules that found something on one parameter ask for one second look; on two parameters for two.
    [Theory]
    [InlineData(ParameterCodes.Ph, new[] { "limit:ph" })]
    [InlineData(ParameterCodes.Conductivity, new[] { "limit:ph", "sudden-change:conductivity" })]
    public void Of_TwoRulesAskForATest_AskForOneOnEachParameter(string parameter, string[] causes)
    {
        var plan = Plan([], [New(LimitRule.Code, ParameterCodes.Ph), New(SuddenChangeRule.RuleCode, parameter)]);

        Assert.Equal(causes, plan.New.Select(t => t.Cause));
        Assert.All(plan.New, t => Assert.Equal(TaskKind.Test, t.Kind));
    }

    // A second look that is open serves both rules. One of the plan or of a shutdown serves neither: it may be weeks away.
    [Theory]
    [InlineData(TaskKind.Test, "sudden-change:ph", 0)]
    [InlineData(TaskKind.Test, "limit:ph", 0)]
    [InlineData(TaskKind.Test, "sudden-change:conductivity", 1)]
    [InlineData(TaskKind.Test, "step:ph", 1)]
    [InlineData(TaskKind.Test, "shutdown-before:ph", 1)]
    [InlineData(TaskKind.Inspect, "limit:ph", 1)]
    public void Of_SecondLookOpenAlready_IsNotAskedForAgain(TaskKind kind, string cause, int asked) =>
        Assert.Equal(asked, Plan([Some.Task(kind, cause)], [New(LimitRule.Code, ParameterCodes.Ph)]).New.Count);

    // Flags about the sump as a whole have no parameter: their looks are not the same.
    [Fact]
    public void Of_TwoFlagsOnTheSump_AskForEachOfTheirLooks()
    {
        var plan = Plan([Some.Task(TaskKind.Inspect, "unusual-loss:")], [New("balance", "")]);

        Assert.Equal("balance:", Assert.Single(plan.New).Cause);
    }

    // Skimming that the plan has is no answer to a flag, and skimming for a flag is not the plan's.
    [Fact]
    public void Of_SkimmingOfPlanAndFlag_AreTwo()
    {
        var oil = new FlagState(LimitRule.Code, ParameterCodes.TrampOil, Verdict.Warning, Direction.High, IsNew: true, IsBeyond: true);
        var (ofPlan, ofFlag) = (Some.Task(TaskKind.Skim, CareSchedule.CauseOf(Skim.Id)), Some.Task(TaskKind.Skim, "limit:odour"));

        Assert.Equal(["limit:tramp-oil"], Plan([ofPlan], [oil], Skim).New.Select(t => t.Cause));
        Assert.Equal([CareSchedule.CauseOf(Skim.Id)], Plan([ofFlag], [oil], Skim).New.Select(t => t.Cause));
    }

    // Only a flag that this reading found beyond asks anew; the worst flag comes first.
    [Fact]
    public void Of_SeveralFlags_TheWorstAsksFirstAndTheOneShortOfItsMarginNot()
    {
        FlagState warning = new(LimitRule.Code, ParameterCodes.TrampOil, Verdict.Warning, Direction.High, IsNew: true, IsBeyond: true);
        FlagState action = new(LimitRule.Code, ParameterCodes.Odour, Verdict.Action, Direction.High, IsNew: true, IsBeyond: true);
        FlagState kept = new(LimitRule.Code, ParameterCodes.Fines, Verdict.Warning, Direction.High, IsNew: false, IsBeyond: false);

        var plan = Plan([], [warning, kept, action]);

        Assert.Equal([(TaskKind.DrainClean, "limit:odour"), (TaskKind.Skim, "limit:tramp-oil")], plan.New.Select(t => (t.Kind, t.Cause)));
        Assert.Equal([TaskKind.Skim, TaskKind.ChangeFilter, TaskKind.DrainClean], plan.Corrective.Order());
        Assert.Equal([CorrectiveDue.For(Verdict.Action, Some.Now, Some.Calendar()), CorrectiveDue.For(Verdict.Warning, Some.Now, Some.Calendar())], plan.New.Select(t => t.DueAt));
    }

    // Only an adjustment carries the recipe.
    [Fact]
    public void Of_RecipeThere_GoesWithTheAdjustmentAlone()
    {
        FlagState weak = new(LimitRule.Code, ParameterCodes.Concentration, Verdict.Warning, Direction.Low, IsNew: true, IsBeyond: true);
        FlagState oil = new(LimitRule.Code, ParameterCodes.TrampOil, Verdict.Warning, Direction.High, IsNew: true, IsBeyond: true);

        Assert.Equal([(TaskKind.Adjust, true), (TaskKind.Skim, false)], Plan([], [weak, oil], hasRecipe: true).New.Select(t => (t.Kind, t.FromRecipe)));
        Assert.All(Plan([], [weak, oil], hasRecipe: false).New, t => Assert.False(t.FromRecipe));
    }

    // From a reading that tells nothing new nothing follows; one value that is new is enough.
    [Theory]
    [InlineData(ParameterCodes.Concentration, ParameterCodes.Ph, 0)]
    [InlineData(ParameterCodes.Concentration, ParameterCodes.Level, 1)]
    public void Of_ReadingThatArrivesLate_PlansOnlyWhenItTellsSomethingNew(string known, string alsoKnown, int planned)
    {
        var reading = Some.Reading(Some.Measured(ParameterCodes.Concentration, 6), Some.Measured(ParameterCodes.Ph, 9));
        var later = Some.Latest(7, Some.Now.AddHours(1));
        var input = Some.Input(reading, Some.Standing(latest: [(known, later), (alsoKnown, later)]), plan: [Skim]);

        Assert.Equal(planned, WorkPlan.Of(input, new([], [], []), hasRecipe: false).New.Count);
    }

    [Fact]
    public void Of_VisitThatMeasuredNothing_PlansWhatIsMissing() =>
        Assert.Single(WorkPlan.Of(Some.Input(Some.Reading(), plan: [Skim]), new([], [], []), hasRecipe: false).New);

    private static FlagState New(string rule, string parameter) => new(rule, parameter, Verdict.Warning, Direction.Low, IsNew: true, IsBeyond: true);

    private static WorkPlan Plan(OpenTask[] open, FlagState[] after, params CareStepFacts[] steps) => Plan(open, after, hasRecipe: false, steps);

    private static WorkPlan Plan(OpenTask[] open, FlagState[] after, bool hasRecipe, params CareStepFacts[] steps) =>
        WorkPlan.Of(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Ph, 8.4m)), Some.Standing(tasks: open), plan: steps), new([], [], after), hasRecipe);
}
