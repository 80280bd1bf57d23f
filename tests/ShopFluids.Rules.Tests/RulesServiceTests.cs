using System.Text.Json;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests;

public sealed class RulesServiceTests
{
    private static readonly ShopCalendar Calendar = Some.Calendar();
    private static readonly string Cause = CareSchedule.CauseOf(Some.StepId);
    private static readonly CareStepFacts Test = Some.Step(parameters: [ParameterCodes.Concentration, ParameterCodes.Ph]);

    [Fact]
    public void Evaluate_WholeRound_AnswersEverythingAtOnce()
    {
        // An evaporating sump: the level is down, the concentration up; pH has fallen 0.6 from the first fill's 9.2.
        ParameterLimits[] limits = [.. ShippedLimits.Default(5m, 8m).Select(l => l.Limits), CommonPractice.Level(300m, 80m).Limits];
        var reading = Some.Reading(
            Some.Measured(ParameterCodes.Concentration, 8.6m, MethodCodes.Refractometer),
            Some.Measured(ParameterCodes.Ph, 8.6m),
            Some.Measured(ParameterCodes.Level, 180m));
        var standing = Some.Standing(9.2m, tasks: [Some.Task(TaskKind.Test, Cause, CareSchedule.DueAt(new(2026, 3, 4), Calendar))]);

        var evaluation = RulesService.Evaluate(Some.Input(reading, standing, limits, [Test]));

        Assert.Equal([Verdict.Warning, Verdict.Warning, Verdict.Warning], evaluation.Measurements.Select(m => m.Verdict));
        Assert.Equal(
            [("limit", ParameterCodes.Concentration), ("first-fill-drop", ParameterCodes.Ph), ("limit", ParameterCodes.Level)],
            evaluation.Raised.Select(f => (f.Rule, f.Parameter)));
        Assert.Equal(
            [(TaskKind.Adjust, "limit:concentration", true), (TaskKind.Inspect, "first-fill-drop:ph", false), (TaskKind.Test, Cause, false)],
            evaluation.NewTasks.Select(t => (t.Kind, t.Cause, t.FromRecipe)));
        Assert.Equal([Some.Id(200)], evaluation.DoneTasks);
        Assert.Equal([Caution.BiocideByLabel, Caution.GlovesAndGoggles, Caution.ConcentrateIntoWater], evaluation.Cautions);
        Assert.Equal((2.5, 117.5), (evaluation.Recipe?.ConcentrateLitres, evaluation.Recipe?.WaterLitres));
        Assert.Equal(CareSchedule.DueAt(new(2026, 3, 11), Calendar), evaluation.NextTestDueAt);
    }

    // Two tests of the plan are open, and a second look at the pH is asked for before both.
    [Fact]
    public void Evaluate_SeveralTestsOpen_TheNextIsTheEarliest()
    {
        var later = Some.Task(TaskKind.Test, "step:later", Some.Now.AddDays(9), 201);
        var sooner = Some.Task(TaskKind.Test, "step:sooner", Some.Now.AddDays(5), 202);
        var input = Some.Input(Some.Reading(Some.Measured(ParameterCodes.Foam, 0)), Some.Standing(tasks: [later, sooner]));

        Assert.Equal(sooner.DueAt, RulesService.Evaluate(input).NextTestDueAt);

        var low = RulesService.Evaluate(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Ph, 8.4m)), input.Standing, [CommonPractice.Ph.Limits]));
        Assert.Equal(Assert.Single(low.NewTasks, t => t.Kind == TaskKind.Test).DueAt, low.NextTestDueAt);
        Assert.True(low.NextTestDueAt < sooner.DueAt);
    }

    // Of two readings of one moment the one that is entered later has the last word.
    [Theory]
    [InlineData(-1, true)]
    [InlineData(0, true)]
    [InlineData(1, false)]
    public void IsLatest_ValueKnownAlready_UnlessItIsOfLater(int ticks, bool isLatest)
    {
        var known = Some.Standing(latest: [(ParameterCodes.Ph, Some.Latest(9m, Some.Now.AddTicks(ticks)))]);

        Assert.Equal(isLatest, Some.Input(Some.Reading(Some.Measured(ParameterCodes.Ph, 9)), known).IsLatest(ParameterCodes.Ph));
    }

    [Fact]
    public void Evaluate_SameInputTwice_SameBytes()
    {
        var input = Some.Input(Some.Reading(Some.Measured(ParameterCodes.Concentration, 3m), Some.Measured(ParameterCodes.Level, 200m)), plan: [Test]);

        Assert.Equal(JsonSerializer.Serialize(RulesService.Evaluate(input)), JsonSerializer.Serialize(RulesService.Evaluate(input)));
    }

    [Fact]
    public void Evaluate_EmptyReading_IsNotMeasured()
    {
        var evaluation = RulesService.Evaluate(Some.Input(Some.Reading()));

        Assert.Equal(Verdict.NotMeasured, evaluation.Verdict);
        Assert.Null(evaluation.NextTestDueAt);
    }

    [Fact]
    public void Evaluate_TestWithAllParameters_IsDoneAndTheNextIsPlanned()
    {
        var evaluation = Evaluate([Some.Measured(ParameterCodes.Ph, 9m), Some.Measured(ParameterCodes.Concentration, 6m)], dueDay: new(2026, 3, 4));

        Assert.Equal([Some.Id(200)], evaluation.DoneTasks);
        Assert.Equal(
            [new ProposedTask(TaskKind.Test, Cause, Some.StepId, CareSchedule.DueAt(new(2026, 3, 11), Calendar), FromRecipe: false)],
            evaluation.NewTasks);
    }

    [Fact]
    public void Evaluate_TestWithOneParameterMissing_StaysOpen()
    {
        var evaluation = Evaluate([Some.Measured(ParameterCodes.Concentration, 6m)], dueDay: new(2026, 3, 4));

        Assert.Empty(evaluation.DoneTasks);
        Assert.Empty(evaluation.NewTasks);
        Assert.Equal(CareSchedule.DueAt(new(2026, 3, 4), Calendar), evaluation.NextTestDueAt);
    }

    [Fact]
    public void Evaluate_RestOfTheTestLaterOnTheDay_IsDone() => Assert.Equal([Some.Id(200)], WithConcentrationOf(Some.Now.AddHours(-1)).DoneTasks);

    // 06:00 begins the shop day: the night shift's 05:59 is yesterday's.
    [Fact]
    public void Evaluate_RestOfTheTestOnAnotherDay_StaysOpen() => Assert.Empty(WithConcentrationOf(Some.Now.AddHours(-2).AddMinutes(-1)).DoneTasks);

    [Fact]
    public void Evaluate_NothingOfTheTestInThisReading_DoesNotEndIt()
    {
        var latest = new[] { (ParameterCodes.Concentration, Some.Latest(6m, Some.Now)), (ParameterCodes.Ph, Some.Latest(9m, Some.Now)) };
        var standing = Some.Standing(tasks: [Some.Task(TaskKind.Test, Cause, CareSchedule.DueAt(new(2026, 3, 4), Calendar))], latest: latest);

        Assert.Empty(RulesService.Evaluate(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Level, 200m)), standing, plan: [Test])).DoneTasks);
    }

    [Fact]
    public void Evaluate_SecondReadingOfTheDay_DoesNotPushTheWeeklyTestOut()
    {
        var evaluation = Evaluate([Some.Measured(ParameterCodes.Ph, 9m), Some.Measured(ParameterCodes.Concentration, 6m)], dueDay: new(2026, 3, 11));

        Assert.Empty(evaluation.DoneTasks);
        Assert.Empty(evaluation.NewTasks);
    }

    [Fact]
    public void Evaluate_StepsWithoutTask_AreGivenTheirs()
    {
        CareStepFacts[] plan = [Test, Some.Step(TaskKind.Skim, anchor: new(2026, 3, 6), id: Some.Id(901))];

        var evaluation = RulesService.Evaluate(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Ph, 9m)), plan: plan));

        Assert.Equal(
            [(TaskKind.Test, CareSchedule.DueAt(new(2026, 3, 4), Calendar)), (TaskKind.Skim, CareSchedule.DueAt(new(2026, 3, 6), Calendar))],
            evaluation.NewTasks.Select(t => (t.Kind, t.DueAt)));
    }

    [Fact]
    public void Evaluate_TestWithoutTaskMadeByThisReading_IsPlannedForTheNextTime()
    {
        var reading = Some.Reading(Some.Measured(ParameterCodes.Ph, 9m), Some.Measured(ParameterCodes.Concentration, 6m));

        Assert.Equal(CareSchedule.DueAt(new(2026, 3, 11), Calendar), RulesService.Evaluate(Some.Input(reading, plan: [Test])).NextTestDueAt);
    }

    // pH is read now, concentration was read before.
    private static Evaluation WithConcentrationOf(DateTime takenAt) =>
        RulesService.Evaluate(Some.Input(
            Some.Reading(Some.Measured(ParameterCodes.Ph, 9m)),
            Some.Standing(
                tasks: [Some.Task(TaskKind.Test, Cause, CareSchedule.DueAt(new(2026, 3, 4), Calendar))],
                latest: [(ParameterCodes.Concentration, Some.Latest(6m, takenAt))]),
            plan: [Test]));

    private static Evaluation Evaluate(MeasurementFacts[] measurements, DateOnly dueDay) =>
        RulesService.Evaluate(Some.Input(
            Some.Reading(measurements),
            Some.Standing(tasks: [Some.Task(TaskKind.Test, Cause, CareSchedule.DueAt(dueDay, Calendar))]),
            plan: [Test]));
}
