using System.Globalization;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Scheduling;

/// <summary>Steps that wait for an event: March 2026, closed at weekends, the 4th is a Wednesday.</summary>
public sealed class EventStepTests
{
    private static readonly ShopCalendar Calendar = Some.Calendar();

    [Theory]
    [InlineData(ClosedDayPolicy.Earlier, 3, "2026-03-06")]
    [InlineData(ClosedDayPolicy.Later, 3, "2026-03-09")]
    [InlineData(ClosedDayPolicy.AsIs, 3, "2026-03-07")]
    [InlineData(ClosedDayPolicy.Earlier, 7, "2026-03-11")]
    public void AfterEvent_DaysAfter_IsShiftedByItsPolicy(ClosedDayPolicy policy, int days, string due) =>
        Assert.Equal(Day(due), Due(Step(IntervalBasis.AfterFill, days, policy), Day("2026-03-04")));

    // Entered late: what should have been done by now is due today, not in the past.
    [Fact]
    public void AfterEvent_DayPassed_IsDueToday() => Assert.Equal(Day("2026-03-04"), Due(Step(IntervalBasis.AfterFill, 3), Day("2026-02-20")));

    // Filled on Friday the 6th, a day after, closed days earlier: not on the Friday itself.
    [Fact]
    public void AfterEvent_ShiftBackToTheEvent_GoesOnInstead()
    {
        var task = CareSchedule.AfterEvent(Step(IntervalBasis.AfterFill, 1, ClosedDayPolicy.Earlier), Day("2026-03-06"), Some.Now.AddDays(2), Calendar);

        Assert.Equal(Day("2026-03-09"), CareSchedule.DueDayOf(task.DueAt, Calendar));
    }

    [Theory]
    [InlineData(IntervalBasis.AfterFill)]
    [InlineData(IntervalBasis.AfterFlag)]
    public void NextDueDay_StepOfAnEvent_IsAWrongCall(IntervalBasis basis) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CareSchedule.NextDueDay(Step(basis, 7), null, Day("2026-03-04"), Calendar));

    [Theory]
    [InlineData(7, "2026-03-09", false)]
    [InlineData(7, "2026-03-10", true)]
    [InlineData(7, "2026-03-11", true)]
    [InlineData(1, "2026-03-10", false)]
    public void CountsFor_WorkOfTheDayBefore_ServesEarlierDoesNot(int days, string done, bool counts)
    {
        var item = Some.Task(TaskKind.Test, CareSchedule.CauseOf(Some.StepId), CareSchedule.DueAt(Day("2026-03-11"), Calendar));

        Assert.Equal(counts, CareSchedule.CountsFor(Step(IntervalBasis.AfterFlag, days), item, Calendar.StartOf(Day(done)), Calendar));
    }

    [Theory]
    [InlineData("", 5.0, true)]
    [InlineData(ParameterCodes.Concentration, 5.0, true)]
    [InlineData(ParameterCodes.Ph, 5.0, false)]
    [InlineData("", 6.0, false)]
    public void Evaluate_FlagRaised_AsksForTheStepOnce(string parameter, double percent, bool isAsked)
    {
        var step = Step(IntervalBasis.AfterFlag, 7) with { Kind = TaskKind.Inspect, EventParameter = parameter };
        var input = Some.Input(Some.Reading(Some.Measured(ParameterCodes.Concentration, (decimal)percent)), plan: [step], limits: [Some.Limits(warningLow: 5.5m)]);

        var first = RulesService.Evaluate(input);

        Assert.Equal(isAsked ? 1 : 0, first.NewTasks.Count(t => t.StepId == step.Id));
        if (isAsked)
        {
            var task = first.NewTasks.First(t => t.StepId == step.Id);
            Assert.Equal((TaskKind.Inspect, Day("2026-03-11")), (task.Kind, CareSchedule.DueDayOf(task.DueAt, Calendar)));

            // While it is open, the next flag asks for no other; and the same flag found again is not raised.
            var again = RulesService.Evaluate(input with { Standing = Some.Standing(tasks: [Some.Task(task.Kind, task.Cause, task.DueAt)]) });
            Assert.DoesNotContain(again.NewTasks, t => t.StepId == step.Id);
            var raised = first.Raised[0];
            var known = RulesService.Evaluate(input with { Standing = Some.Standing(flags: [Some.Flag(raised.Rule, raised.Parameter, raised.Severity, raised.Direction)]) });
            Assert.DoesNotContain(known.NewTasks, t => t.StepId == step.Id);
        }
    }

    // A step that names no parameter follows any flag; other work of its kind that is open is not its own.
    [Fact]
    public void Evaluate_StepOfNoParameter_FollowsAnyFlagBesideOtherWork()
    {
        var step = Step(IntervalBasis.AfterFlag, 7) with { Kind = TaskKind.Inspect };
        var input = Some.Input(Some.Reading(Some.Measured(ParameterCodes.Concentration, 5m)), Some.Standing(tasks: [Some.Task(TaskKind.Inspect, "limit:foam")]), [Some.Limits(warningLow: 5.5m)], [step]);

        Assert.Single(RulesService.Evaluate(input).NewTasks, t => t.StepId == step.Id);
    }

    [Fact]
    public void Evaluate_StepAfterFill_IsNotPlannedByAReading()
    {
        var evaluation = RulesService.Evaluate(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Concentration, 6)), plan: [Step(IntervalBasis.AfterFill, 7)], limits: [Some.Limits(warningLow: 5.5m)]));

        Assert.Empty(evaluation.NewTasks);
    }

    private static CareStepFacts Step(IntervalBasis basis, int days, ClosedDayPolicy closed = ClosedDayPolicy.Later) => Some.Step(basis: basis, intervalDays: days, closedDays: closed);

    private static DateOnly Due(CareStepFacts step, DateOnly eventDay) => CareSchedule.DueDayOf(CareSchedule.AfterEvent(step, eventDay, Some.Now, Calendar).DueAt, Calendar);

    private static DateOnly Day(string text) => DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture);
}
