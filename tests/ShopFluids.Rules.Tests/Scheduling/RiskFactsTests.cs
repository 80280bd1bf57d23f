using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Scheduling;

/// <summary>
/// By which readings and which limits the next test by risk is set: floor 2, ceiling 28, usually 7 days, 5 % accepted. Readings are a week apart, the last one
/// now. The pH of docs/calculations/forecast.md is due after 25 days, one that hardly moves after 28.
/// </summary>
public sealed class RiskFactsTests
{
    private const string Ph = ParameterCodes.Ph;
    private const string Concentration = ParameterCodes.Concentration;

    private static readonly decimal[] Falling = [9.20m, 9.10m, 9.10m, 8.95m, 8.95m];
    private static readonly decimal[] Steady = [9.01m, 9.00m, 8.99m, 9.01m, 9.00m];
    private static readonly decimal[] SteadyPercent = [6.51m, 6.50m, 6.49m, 6.51m, 6.50m];
    private static readonly decimal[] RisingPercent = [6.0m, 6.2m, 6.5m, 6.6m, 6.9m];
    private static readonly ParameterLimits PhLimits = Some.Limits(Ph, actionLow: 8.2m, warningLow: 8.5m, warningHigh: 9.5m, actionHigh: 10m);
    private static readonly TestReason OfTheExample = new(TestDaySetBy.Risk, 25, 28, 5, Ph, Direction.Low, 8.5m, 5);

    [Fact]
    public void Evaluate_SeveralParameters_TheOneAtRiskFirstSetsTheDay()
    {
        var falling = Next([PhLimits, Some.Limits()], Both(Falling, SteadyPercent));
        var rising = Next([PhLimits, Some.Limits()], Both(Steady, RisingPercent));

        Assert.Equal(OfTheExample, falling);
        Assert.Equal((Concentration, Direction.High, 8m), (rising.Parameter, rising.Side, rising.Limit));
    }

    [Fact]
    public void Evaluate_ParameterThatTheTestDoesNotAskFor_IsNotLookedAt()
    {
        var why = Next([PhLimits, Some.Limits()], Both(Falling, SteadyPercent), parameters: [Concentration]);

        Assert.Equal((TestDaySetBy.Ceiling, Concentration), (why.SetBy, why.Parameter));
    }

    // Nothing is between two moments that are one: no trend.
    [Fact]
    public void Evaluate_AllReadAtOneMoment_KeepsTheUsualInterval()
    {
        var readings = Falling.Select((v, i) => new ReadingFacts(Some.Id(i + 1), Some.Now, [Some.Measured(Ph, v)])).ToArray();

        Assert.Equal(new TestReason(TestDaySetBy.Usual, 7, 28, 5), Next([PhLimits], readings));
    }

    // The concentration was read this morning, and the pH, which completes the test, only now. Once, long ago, it was titrated.
    [Fact]
    public void Evaluate_MeasuredByAnEarlierReadingOfTheDay_ItsMethodIsFollowed()
    {
        ReadingFacts[] readings =
        [
            Reading(0, 35, Some.Measured(Concentration, 7.5m, MethodCodes.Titration)),
            .. RisingPercent.Select((v, i) => Reading(i + 1, (7 * (RisingPercent.Length - 1 - i)) + 0.05, Some.Measured(Concentration, v, MethodCodes.Refractometer))),
            Reading(9, 0, Some.Measured(Ph, 9.0m)),
        ];

        var why = Next([Some.Limits()], readings, latest: (Concentration, Some.Latest(RisingPercent[^1], readings[^2].TakenAt)));

        Assert.Equal((Concentration, Direction.High), (why.Parameter, why.Side));
    }

    // The concentration was read this morning, of the charge before: of this one nothing of it is known yet.
    [Fact]
    public void Evaluate_NotYetMeasuredInThisCharge_KeepsTheUsualInterval()
    {
        var why = Next([Some.Limits()], [Reading(0, 0, Some.Measured(Ph, 9.0m))], latest: (Concentration, Some.Latest(6.0m, Some.Now.AddMinutes(-70))));

        Assert.Equal(new TestReason(TestDaySetBy.Usual, 7, 28, 5), why);
    }

    // Titrated now as four times before; the refractometer that stood in for it last week has no past.
    [Fact]
    public void Evaluate_MeasuredNow_TheMethodOfNowIsFollowed()
    {
        ReadingFacts[] readings =
        [
            .. RisingPercent[..^1].Select((v, i) => Reading(i, 35 - (7 * i), Some.Measured(Concentration, v, MethodCodes.Titration))),
            Reading(8, 7, Some.Measured(Concentration, 6.7m, MethodCodes.Refractometer)),
            Reading(9, 0, Some.Measured(Concentration, RisingPercent[^1], MethodCodes.Titration)),
        ];

        Assert.Equal(Concentration, Next([Some.Limits()], readings, parameters: [Concentration]).Parameter);
    }

    [Fact]
    public void Evaluate_NoWarningLimit_TheActionLimitIsTheNearest() =>
        Assert.Equal(OfTheExample, Next([Some.Limits(Ph, actionLow: 8.5m, warningLow: null, warningHigh: 9.5m, actionHigh: 10m)], Of(Falling)));

    // The side that has no limit is never at risk, whereto the values go.
    [Theory]
    [InlineData(true, false, TestDaySetBy.Risk, Direction.Low)]
    [InlineData(false, true, TestDaySetBy.Ceiling, Direction.High)]
    public void Evaluate_LimitOnOneSide_IsTheSideThatIsTold(bool hasLow, bool hasHigh, TestDaySetBy expected, Direction side)
    {
        var row = Some.Limits(Ph, actionLow: null, warningLow: hasLow ? 8.5m : null, warningHigh: hasHigh ? 9.5m : null, actionHigh: null);

        var why = Next([row], Of(Falling));

        Assert.Equal((expected, side, hasLow ? 8.5m : 9.5m), (why.SetBy, why.Side, why.Limit));
    }

    // Never anything else was read, and neither limit is at risk: the lower one is told.
    [Fact]
    public void Evaluate_BothSidesAlike_TellsTheLower() =>
        Assert.Equal(new TestReason(TestDaySetBy.Ceiling, 28, 28, 5, Ph, Direction.Low, 8.5m, 0), Next([PhLimits], Of([9.0m, 9.0m, 9.0m, 9.0m, 9.0m])));

    // From a first fill of 9.2: a fall of 1.0 ends at 8.2, below the limit of 8.5; a fall of 0.7 ends on it.
    [Theory]
    [InlineData(1.0)]
    [InlineData(0.7)]
    public void Evaluate_FallThatEndsBelowTheLimit_LeavesTheLimit(double fall) =>
        Assert.Equal(OfTheExample, Next([PhLimits, Drop((decimal)fall)], Of(Falling), firstFillPh: 9.2m));

    [Fact]
    public void Evaluate_FallIsTheOnlyLimit_IsTakenFromTheFirstFill() =>
        Assert.Equal(OfTheExample, Next([Drop(0.7m)], Of(Falling), firstFillPh: 9.2m));

    // A fall from a value that nobody knows is no limit.
    [Fact]
    public void Evaluate_FallFromAnUnknownFirstFill_KeepsTheUsualInterval() =>
        Assert.Equal(new TestReason(TestDaySetBy.Usual, 7, 28, 5), Next([Drop(0.7m)], Of(Falling)));

    [Fact]
    public void Evaluate_FallFromAnUnknownFirstFillBesideALimit_LeavesTheLimit() => Assert.Equal(OfTheExample, Next([PhLimits, Drop(0.1m)], Of(Falling)));

    private static ParameterLimits Drop(decimal fall) => new(Ph, LimitBasis.DropFromFirstFill, null, null, null, null, fall, null, false, 0.1m);

    private static ReadingFacts Reading(int number, double daysAgo, params MeasurementFacts[] measurements) => new(Some.Id(number + 1), Some.Now.AddDays(-daysAgo), measurements);

    private static ReadingFacts[] Of(decimal[] values) => [.. values.Select((v, i) => Reading(i, 7 * (values.Length - 1 - i), Some.Measured(Ph, v)))];

    private static ReadingFacts[] Both(decimal[] values, decimal[] percent) =>
        [.. values.Zip(percent).Select((v, i) => Reading(i, 7 * (values.Length - 1 - i), Some.Measured(Ph, v.First), Some.Measured(Concentration, v.Second)))];

    private static TestReason Next(
        ParameterLimits[] limits,
        ReadingFacts[] readings,
        string[]? parameters = null,
        decimal? firstFillPh = null,
        params (string Parameter, LatestValue Value)[] latest)
    {
        var step = Some.Step(basis: IntervalBasis.Risk, parameters: parameters ?? [.. readings[^1].Measurements.Select(m => m.Parameter), .. latest.Select(l => l.Parameter)]) with { Risk = new(2, 28, 5) };
        var input = Some.Input(readings[^1], Some.Standing(firstFillPh, latest: latest), limits, [step], Some.Calendar(closed: [])) with { History = new ChargeHistory(readings[..^1], []) };

        return Assert.IsType<TestReason>(Assert.Single(RulesService.Evaluate(input).NewTasks, t => t.StepId == step.Id).Why);
    }
}
