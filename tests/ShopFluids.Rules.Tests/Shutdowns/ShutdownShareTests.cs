using System.Globalization;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Rules.Tests.Shutdowns;

/// <summary>Work of the plan or a flag that a shutdown asks for as well. 13 March 2026 is a Friday; weekends are closed.</summary>
public sealed class ShutdownShareTests
{
    private static readonly ShopCalendar Calendar = Some.Calendar();
    private static readonly DateOnly Today = new(2026, 3, 2);
    private static readonly Guid Shutdown = Some.Id(700);

    [Theory]
    [InlineData("2026-03-09", false)]
    [InlineData("2026-03-10", true)]
    [InlineData("2026-03-13", true)]
    [InlineData("2026-03-16", true)]
    [InlineData("2026-03-17", false)]
    public void IsOneWith_SkimOfThePlan_UpToThreeDaysApart(string due, bool expected) =>
        Assert.Equal(expected, IsOne(TaskKind.Skim, due, Step(TaskKind.Skim, 7), ShutdownWork.BeforeOf(Shutdown), "2026-03-13"));

    // Six days late on the eve of the shutdown: it is not done twice.
    [Theory]
    [InlineData("2026-03-12", true)]
    [InlineData("2026-03-08", false)]
    [InlineData("2026-03-25", true)]
    public void IsOneWith_LateWork_IsDoneNowAndOnce(string today, bool expected) =>
        Assert.Equal(expected, ShutdownShare.IsOneWith(Task(TaskKind.Adjust, "2026-03-06", "limit:concentration"), null, Task(TaskKind.Adjust, "2026-03-13", ShutdownWork.BeforeOf(Shutdown)), Calendar, DateOnly.Parse(today, CultureInfo.InvariantCulture)));

    // The shutdown's own skim is late as well: both are done today, which counts for the step.
    [Fact]
    public void IsOneWith_ShutdownsWorkIsLateToo_CountsForTheStepToday() =>
        Assert.True(ShutdownShare.IsOneWith(
            Task(TaskKind.Skim, "2026-03-24", CareSchedule.CauseOf(Some.StepId)), Step(TaskKind.Skim, 7), Task(TaskKind.Skim, "2026-03-13", ShutdownWork.BeforeOf(Shutdown)), Calendar, new DateOnly(2026, 3, 25)));

    // Skimmed on Friday, a step of every two days has its own on Monday.
    [Fact]
    public void IsOneWith_DayDoesNotCountForTheStep_StaysApart() =>
        Assert.False(IsOne(TaskKind.Skim, "2026-03-16", Step(TaskKind.Skim, 2), ShutdownWork.BeforeOf(Shutdown), "2026-03-13"));

    [Fact]
    public void IsOneWith_AFlagAsksForIt_IsOne() =>
        Assert.True(IsOne(TaskKind.Adjust, "2026-03-12", null, ShutdownWork.BeforeOf(Shutdown), "2026-03-13", "limit:concentration"));

    [Fact]
    public void IsOneWith_OtherKindOrTwoOfShutdowns_StaysApart()
    {
        Assert.False(ShutdownShare.IsOneWith(Task(TaskKind.Skim, "2026-03-13", "limit:tramp-oil"), null, Task(TaskKind.Circulate, "2026-03-13", ShutdownWork.DuringOf(Shutdown)), Calendar, Today));
        Assert.False(IsOne(TaskKind.Skim, "2026-03-13", null, ShutdownWork.BeforeOf(Shutdown), "2026-03-13", ShutdownWork.BeforeOf(Some.Id(701))));
        Assert.False(ShutdownShare.IsOneWith(Task(TaskKind.Skim, "2026-03-13", "limit:tramp-oil"), null, Task(TaskKind.Skim, "2026-03-13", "limit:odour"), Calendar, Today));
    }

    // The test before the first cut is not done by one of the days before.
    [Theory]
    [InlineData("2026-03-27", false)]
    [InlineData("2026-03-30", true)]
    [InlineData("2026-03-31", true)]
    public void IsOneWith_TestAfter_NoneThatIsDueBeforeIt(string due, bool expected) =>
        Assert.Equal(expected, IsOne(TaskKind.Test, due, Step(TaskKind.Test, 7) with { Parameters = [ParameterCodes.Concentration, ParameterCodes.Ph] }, ShutdownWork.AfterOf(Shutdown), "2026-03-30"));

    [Theory]
    [InlineData(new[] { ParameterCodes.Concentration, ParameterCodes.Ph, ParameterCodes.Level }, true)]
    [InlineData(new[] { ParameterCodes.Concentration }, false)]
    [InlineData(new[] { ParameterCodes.Bacteria }, false)]
    public void IsOneWith_TestOfThePlan_MustMeasureWhatTheShutdownAsks(string[] parameters, bool expected) =>
        Assert.Equal(expected, IsOne(TaskKind.Test, "2026-03-13", Step(TaskKind.Test, 7) with { Parameters = parameters }, ShutdownWork.BeforeOf(Shutdown), "2026-03-13"));

    [Fact]
    public void IsOneWith_SecondLookOfAFlag_StaysATestOfItsOwn() =>
        Assert.False(IsOne(TaskKind.Test, "2026-03-13", null, ShutdownWork.BeforeOf(Shutdown), "2026-03-13", "limit:ph"));

    private static bool IsOne(TaskKind kind, string due, CareStepFacts? step, string causeOfShutdown, string wanted, string? cause = null) =>
        ShutdownShare.IsOneWith(Task(kind, due, cause ?? CareSchedule.CauseOf(Some.StepId)), step, Task(kind, wanted, causeOfShutdown), Calendar, Today);

    private static CareStepFacts Step(TaskKind kind, int days) => Some.Step(kind, IntervalBasis.FromLastDone, intervalDays: days);

    private static OpenTask Task(TaskKind kind, string due, string cause) =>
        new(Some.Id(800), kind, cause, CareSchedule.DueAt(DateOnly.Parse(due, CultureInfo.InvariantCulture), Calendar));
}
