using ShopFluids.Rules.Drift;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.FirstFillDrop;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests.Advice;

public sealed class CorrectiveWorkTests
{
    private static readonly ParameterLimits[] Limits = [.. ShippedLimits.Default(5m, 8m).Select(l => l.Limits), CommonPractice.Level(300m, 80m).Limits];

    [Theory]
    [InlineData(ParameterCodes.Concentration, 4.9, new[] { TaskKind.Adjust })]
    [InlineData(ParameterCodes.Concentration, 10.1, new[] { TaskKind.Adjust })]
    [InlineData(ParameterCodes.Level, 150, new[] { TaskKind.Adjust })]
    [InlineData(ParameterCodes.Level, 320, new[] { TaskKind.Inspect })]
    [InlineData(ParameterCodes.Ph, 8.4, new[] { TaskKind.Test })]
    [InlineData(ParameterCodes.Ph, 8.1, new[] { TaskKind.Inspect })]
    [InlineData(ParameterCodes.Ph, 9.6, new[] { TaskKind.Inspect })]
    [InlineData(ParameterCodes.Nitrite, 21, new[] { TaskKind.DrainClean })]
    [InlineData(ParameterCodes.Bacteria, 4, new[] { TaskKind.Inspect })]
    [InlineData(ParameterCodes.Bacteria, 6, new[] { TaskKind.DrainClean })]
    [InlineData(ParameterCodes.TrampOil, 11, new[] { TaskKind.Skim })]
    [InlineData(ParameterCodes.Odour, 2, new[] { TaskKind.Skim, TaskKind.Circulate })]
    [InlineData(ParameterCodes.Odour, 3, new[] { TaskKind.DrainClean })]
    [InlineData(ParameterCodes.Foam, 2, new[] { TaskKind.Inspect })]
    [InlineData(ParameterCodes.Fines, 2, new[] { TaskKind.ChangeFilter })]
    [InlineData(ParameterCodes.Temperature, 36, new[] { TaskKind.Inspect })]
    public void Evaluate_ValueBeyondAShippedLimit_AsksForItsWork(string parameter, double value, TaskKind[] kinds)
    {
        var evaluation = Some.Evaluate(Some.Measured(parameter, (decimal)value), null, Limits);

        Assert.Equal(kinds, evaluation.NewTasks.Select(t => t.Kind));
        Assert.All(evaluation.NewTasks, t => Assert.Equal(($"limit:{parameter}", null), (t.Cause, t.StepId)));
    }

    [Fact]
    public void Evaluate_ParameterOfTheShopsOwn_LooksForTheCause() =>
        Assert.Equal(TaskKind.Inspect, Assert.Single(Some.Evaluate(Some.Measured("iron", 9m), null, Some.Limits("iron")).NewTasks).Kind);

    [Fact]
    public void Evaluate_ConcentrationAndLevelLow_IsOneAdjustmentWithTheRecipe()
    {
        var reading = Some.Reading(Some.Measured(ParameterCodes.Level, 150m), Some.Measured(ParameterCodes.Concentration, 2.9m));

        var evaluation = RulesService.Evaluate(Some.Input(reading, limits: Limits));

        var task = Assert.Single(evaluation.NewTasks);
        Assert.Equal((TaskKind.Adjust, "limit:concentration", true), (task.Kind, task.Cause, task.FromRecipe));
    }

    [Fact]
    public void Evaluate_SharedWorkGoesWithOneFlag_TheOtherTakesItOver()
    {
        // Odour and slide both asked for draining; the work hung on the odour, which is gone. The slide was not read again.
        var standing = Some.Standing(
            flags: [Some.Flag(LimitRule.Code, ParameterCodes.Odour, Verdict.Action, Direction.High), Some.Flag(LimitRule.Code, ParameterCodes.Bacteria, Verdict.Action, Direction.High, 101)],
            tasks: [Some.Task(TaskKind.DrainClean, "limit:odour")]);

        var evaluation = Some.Evaluate(Some.Measured(ParameterCodes.Odour, 0m), standing, Limits);

        Assert.Equal([Some.Id(200)], evaluation.WithdrawnTasks);
        Assert.Equal((TaskKind.DrainClean, "limit:bacteria"), (Assert.Single(evaluation.NewTasks).Kind, evaluation.NewTasks[0].Cause));
    }

    // The level is full again, so its adjustment goes. A trend of the concentration, not read this time, asks for one only once it is confirmed.
    // Another rule's look at the same parameter is that look; a test of the plan is none.
    [Theory]
    [InlineData("drift:concentration", false)]
    [InlineData("sudden-change:concentration", false)]
    [InlineData("step:concentration", true)]
    [InlineData(null, true)]
    public void Evaluate_AdjustmentGoesWithOneFlag_AFlagThatWaitsForItsTestTakesNothingOver(string? test, bool isTakenOver)
    {
        var adjust = Some.Task(TaskKind.Adjust, "limit:level");
        var standing = Some.Standing(
            flags: [Some.Flag(LimitRule.Code, ParameterCodes.Level, Verdict.Warning, Direction.Low), Some.Flag(DriftRule.RuleCode, ParameterCodes.Concentration, Verdict.Warning, Direction.High, 101)],
            tasks: test is not null ? [adjust, Some.Task(TaskKind.Test, test, id: 201)] : [adjust]);

        var evaluation = Some.Evaluate(Some.Measured(ParameterCodes.Level, 300m), standing, Limits);

        Assert.Equal([adjust.Id], evaluation.WithdrawnTasks);
        Assert.Equal(isTakenOver ? [TaskKind.Adjust] : [], evaluation.NewTasks.Select(t => t.Kind));
    }

    [Fact]
    public void Evaluate_FlagClears_ItsTasksAreWithdrawnAndNoOthers()
    {
        var standing = Some.Standing(
            flags: [Some.Flag(LimitRule.Code, ParameterCodes.Odour, Verdict.Warning, Direction.High)],
            tasks: [Some.Task(TaskKind.Skim, "limit:odour"), Some.Task(TaskKind.Circulate, "limit:odour", id: 201), Some.Task(TaskKind.Skim, "step:x", id: 202)]);

        var evaluation = Some.Evaluate(Some.Measured(ParameterCodes.Odour, 1m), standing, Limits);

        Assert.Equal([Some.Id(200), Some.Id(201)], evaluation.WithdrawnTasks);
        Assert.Empty(evaluation.NewTasks);
    }

    [Fact]
    public void Evaluate_WarningBecomesAction_SameWorkOpenIsKept()
    {
        var standing = Some.Standing(
            flags: [Some.Flag(LimitRule.Code, ParameterCodes.Concentration, Verdict.Warning, Direction.Low)],
            tasks: [Some.Task(TaskKind.Adjust, "limit:concentration")]);

        var evaluation = Some.Evaluate(Some.Measured(ParameterCodes.Concentration, 2m), standing, Limits);

        Assert.Equal(Verdict.Action, Assert.Single(evaluation.Raised).Severity);
        Assert.Empty(evaluation.NewTasks);
        Assert.Empty(evaluation.WithdrawnTasks);
    }

    [Fact]
    public void Evaluate_WarningBecomesAction_OtherWorkTakesItsPlace()
    {
        var standing = Some.Standing(
            9.2m,
            [Some.Flag(FirstFillDropRule.Code, ParameterCodes.Ph, Verdict.Warning, Direction.Low)],
            [Some.Task(TaskKind.Inspect, "first-fill-drop:ph")]);

        var evaluation = Some.Evaluate(Some.Measured(ParameterCodes.Ph, 8.1m), standing, DguvAnnex3.PhDrop.Limits);

        Assert.Equal(TaskKind.DrainClean, Assert.Single(evaluation.NewTasks).Kind);
        Assert.Equal([Some.Id(200)], evaluation.WithdrawnTasks);
    }

    [Fact]
    public void Evaluate_LowPhFoundAgain_SecondTestIsDoneAndTheCauseIsLookedFor()
    {
        var standing = Some.Standing(
            flags: [Some.Flag(LimitRule.Code, ParameterCodes.Ph, Verdict.Warning, Direction.Low)],
            tasks: [Some.Task(TaskKind.Test, "limit:ph")]);

        var evaluation = Some.Evaluate(Some.Measured(ParameterCodes.Ph, 8.4m), standing, Limits);

        Assert.Equal([Some.Id(200)], evaluation.DoneTasks);
        Assert.Equal(TaskKind.Inspect, Assert.Single(evaluation.NewTasks).Kind);
        Assert.Empty(evaluation.Raised);
    }

    [Fact]
    public void Evaluate_LowPhNotFoundAgain_SecondTestIsDoneNotWithdrawn()
    {
        var standing = Some.Standing(
            flags: [Some.Flag(LimitRule.Code, ParameterCodes.Ph, Verdict.Warning, Direction.Low)],
            tasks: [Some.Task(TaskKind.Test, "limit:ph")]);

        var evaluation = Some.Evaluate(Some.Measured(ParameterCodes.Ph, 9m), standing, Limits);

        Assert.Equal([Some.Id(200)], evaluation.DoneTasks);
        Assert.Empty(evaluation.WithdrawnTasks);
    }

    // One visit does the second look and the weekly test: the next of the series follows its own item, not the look.
    [Fact]
    public void Evaluate_SecondLookAndPlannedTestAtOnce_EachIsDoneByItself()
    {
        var (step, calendar) = (Some.Step(parameters: [ParameterCodes.Ph]), Some.Calendar());
        var planned = Some.Task(TaskKind.Test, CareSchedule.CauseOf(step.Id), CareSchedule.DueAt(new(2026, 3, 11), calendar), 201);
        var standing = Some.Standing(flags: [Some.Flag(LimitRule.Code, ParameterCodes.Ph, Verdict.Warning, Direction.Low)], tasks: [Some.Task(TaskKind.Test, "limit:ph"), planned]);
        var reading = new ReadingFacts(Some.Id(1), Some.Now.AddDays(6), [Some.Measured(ParameterCodes.Ph, 9m)]);

        var evaluation = RulesService.Evaluate(Some.Input(reading, standing, Limits, [step], calendar, Some.Now.AddDays(6)));

        Assert.Equal([Some.Id(200), Some.Id(201)], evaluation.DoneTasks);
        Assert.Equal(CareSchedule.DueAt(new(2026, 3, 18), calendar), Assert.Single(evaluation.NewTasks).DueAt);
        Assert.Equal(CareSchedule.DueAt(new(2026, 3, 18), calendar), evaluation.NextTestDueAt);
    }

    [Theory]
    [InlineData(4.9, 1)]
    [InlineData(5.1, 0)]
    public void Evaluate_WorkDoneButFlagStillOpen_AsksAgainOnlyWhileBeyond(double value, int tasks)
    {
        var standing = Some.Standing(flags: [Some.Flag(LimitRule.Code, ParameterCodes.Concentration, Verdict.Warning, Direction.Low)]);

        Assert.Equal(tasks, Some.Evaluate(Some.Measured(ParameterCodes.Concentration, (decimal)value), standing, Limits).NewTasks.Count);
    }
}
