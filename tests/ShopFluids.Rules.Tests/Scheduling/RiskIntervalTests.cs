using FsCheck.Xunit;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Scheduling;

/// <summary>
/// The next test by risk: pH and concentration, floor 2, ceiling 28, usually 7 days, 5 % accepted. pH warns under 8.5 and over 9.5, the concentration under 5 and
/// over 8. A reading each week, the last one now; done today, the next is due so many days later.
/// </summary>
public sealed class RiskIntervalTests
{
    private static readonly ParameterLimits[] Limits =
    [
        Some.Limits(ParameterCodes.Ph, actionLow: 8.2m, warningLow: 8.5m, warningHigh: 9.5m, actionHigh: 10m),
        Some.Limits(),
    ];

    // The worked example of docs/calculations/forecast.md has P reach 5 % on day 53.1, 25.1 days after its last reading.
    [Fact]
    public void Evaluate_FallingPh_IsDueBeforeTheRiskReachesWhatIsAccepted()
    {
        var (task, why) = Next(ParameterCodes.Ph, 9.20m, 9.10m, 9.10m, 8.95m, 8.95m);

        Assert.Equal(new TestReason(TestDaySetBy.Risk, 25, 28, 5, ParameterCodes.Ph, Direction.Low, 8.5m, 5), why);
        Assert.Equal(new DateOnly(2026, 3, 4).AddDays(25), CareSchedule.DueDayOf(task.DueAt, AllDays));
    }

    [Fact]
    public void Evaluate_SteadyPh_IsDueAtTheCeiling()
    {
        var (_, why) = Next(ParameterCodes.Ph, 9.01m, 9.00m, 8.99m, 9.01m, 9.00m, 9.00m);

        Assert.Equal((TestDaySetBy.Ceiling, 28), (why.SetBy, why.Days));
        Assert.InRange(why.RiskPercent ?? 100, 0, 5);
    }

    [Fact]
    public void Evaluate_AtTheLimit_IsDueAtTheFloor()
    {
        var (_, why) = Next(ParameterCodes.Ph, 8.9m, 8.8m, 8.7m, 8.6m, 8.5m);

        Assert.Equal((TestDaySetBy.Floor, 2, Direction.Low), (why.SetBy, why.Days, why.Side));
        Assert.True(why.RiskPercent > 5);
    }

    [Fact]
    public void Evaluate_RisingConcentration_SaysTheUpperLimit()
    {
        var (_, why) = Next(ParameterCodes.Concentration, 6.0m, 6.2m, 6.5m, 6.6m, 6.9m);

        Assert.Equal((ParameterCodes.Concentration, Direction.High, 8m), (why.Parameter, why.Side, why.Limit));
        Assert.InRange(why.Days, 2, 28);
    }

    // Four readings say too little, a fifth begins to tell.
    [Theory]
    [InlineData(1, true)]
    [InlineData(4, true)]
    [InlineData(5, false)]
    public void Evaluate_FewReadings_KeepsTheUsualInterval(int readings, bool isUsual)
    {
        var (_, why) = Next(ParameterCodes.Ph, [.. Enumerable.Range(0, readings).Select(i => 9.0m + (i % 2 * 0.02m))]);

        Assert.Equal(isUsual, why == new TestReason(TestDaySetBy.Usual, 7, 28, 5));
    }

    [Fact]
    public void Evaluate_NoLimitOnIt_KeepsTheUsualInterval() =>
        Assert.Equal(TestDaySetBy.Usual, Next([], ParameterCodes.Ph, 9.2m, 9.1m, 9.0m, 8.9m, 8.8m).Why.SetBy);

    // The usual interval is within floor and ceiling, whatever was typed.
    [Theory]
    [InlineData(1, 2)]
    [InlineData(90, 28)]
    public void Evaluate_UsualIntervalOutsideTheBounds_IsBroughtInside(int usual, int expected)
    {
        var step = Step() with { IntervalDays = usual };

        Assert.Equal(expected, Next(step, Limits, ParameterCodes.Ph, [9.0m]).Why.Days);
    }

    // The fall since the first fill is a limit on pH itself: 9.2 - 0.5, higher than 8.5.
    [Fact]
    public void Evaluate_FallSinceTheFirstFill_IsTheNearerLimit()
    {
        ParameterLimits[] limits = [.. Limits, new(ParameterCodes.Ph, LimitBasis.DropFromFirstFill, null, null, null, null, 0.5m, 1.0m, false, 0.1m)];

        var (_, why) = Next(limits, ParameterCodes.Ph, 9.20m, 9.10m, 9.10m, 8.95m, 8.95m);

        Assert.Equal((8.7m, TestDaySetBy.Risk), (why.Limit, why.SetBy));
        Assert.InRange(why.Days, 2, 24);
    }

    // A first fill over the upper limit leaves no room between the two: tested as soon as the policy allows.
    [Fact]
    public void Evaluate_LimitsThatLeaveNoRoom_IsDueAtTheFloor()
    {
        ParameterLimits[] limits = [Limits[0], new(ParameterCodes.Ph, LimitBasis.DropFromFirstFill, null, null, null, null, 0.1m, null, false, 0.1m)];

        Assert.Equal((TestDaySetBy.Floor, 2), Next(limits, ParameterCodes.Ph, 9.9m, 9.8m, 9.8m, 9.7m, 9.7m) is var (_, why) ? (why.SetBy, why.Days) : default);
    }

    [Property(Replay = "20260304,20261129", MaxTest = 300)]
    public void Evaluate_AnyReadings_IsWithinFloorAndCeiling(byte[] tenths)
    {
        var values = tenths.Take(30).Select(t => 8m + (t / 100m)).ToArray();
        if (values.Length > 0)
        {
            var (task, why) = Next(ParameterCodes.Ph, values);
            Assert.InRange(why.Days, 2, 28);
            Assert.Equal(new DateOnly(2026, 3, 4).AddDays(why.Days), CareSchedule.DueDayOf(task.DueAt, AllDays));
        }
    }

    // A reading between is no waste: it counts, and the next is planned from it.
    [Theory]
    [InlineData(-27, true)]
    [InlineData(-28, false)]
    public void CountsFor_ReadingWithinTheCeiling_Counts(int daysBeforeDue, bool counts)
    {
        var due = new DateOnly(2026, 4, 1);
        var open = Some.Task(TaskKind.Test, CareSchedule.CauseOf(Some.StepId), CareSchedule.DueAt(due, AllDays));

        Assert.Equal(counts, CareSchedule.CountsFor(Step(), open, AllDays.StartOf(due.AddDays(daysBeforeDue)).AddHours(3), AllDays));
    }

    private static ShopCalendar AllDays => Some.Calendar(closed: []);

    private static CareStepFacts Step() => Some.Step(basis: IntervalBasis.Risk, closedDays: ClosedDayPolicy.Earlier, parameters: [ParameterCodes.Ph, ParameterCodes.Concentration]) with { Risk = new(2, 28, 5) };

    private static (ProposedTask Task, TestReason Why) Next(string parameter, params decimal[] values) => Next(Step(), Limits, parameter, values);

    private static (ProposedTask Task, TestReason Why) Next(ParameterLimits[] limits, string parameter, params decimal[] values) => Next(Step(), limits, parameter, values);

    // The other parameter is only measured now: of one value nothing follows.
    private static (ProposedTask Task, TestReason Why) Next(CareStepFacts step, ParameterLimits[] limits, string parameter, decimal[] values)
    {
        var other = parameter == ParameterCodes.Ph ? Some.Measured(ParameterCodes.Concentration, 6.5m) : Some.Measured(ParameterCodes.Ph, 9.0m);
        var past = values[..^1].Select((v, i) => new ReadingFacts(Some.Id(i + 1), Some.Now.AddDays(-7 * (values.Length - 1 - i)), [Some.Measured(parameter, v)])).ToList();
        var open = Some.Task(TaskKind.Test, CareSchedule.CauseOf(step.Id), CareSchedule.DueAt(new(2026, 3, 4), AllDays));
        var input = Some.Input(Some.Reading(Some.Measured(parameter, values[^1]), other), Some.Standing(firstFillPh: parameter == ParameterCodes.Ph ? values[0] : null, tasks: [open]), limits, [step], AllDays) with
        {
            History = new ChargeHistory(past, []),
        };

        var task = Assert.Single(RulesService.Evaluate(input).NewTasks, t => t.StepId == step.Id);
        return (task, Assert.IsType<TestReason>(task.Why));
    }
}
