using ShopFluids.Rules.Drift;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.Drift;

/// <summary>A trend that is no chance and meets a limit soon. pH warns under 8.5, concentration over 8.0; one reading a week.</summary>
public sealed class DriftRuleTests
{
    private readonly Charge _charge = new(
        new DriftRule(),
        Some.Limits(ParameterCodes.Ph, actionLow: 8.2m, warningLow: 8.5m, warningHigh: 9.5m, actionHigh: 10m, clearMargin: 0.1m),
        Some.Limits(warningHigh: 8.0m));

    // 0.06 a week: 16 days from the limit at 8.64, 9 at 8.58.
    [Theory]
    [InlineData(7, false)]
    [InlineData(8, true)]
    public void Check_FallingPh_IsFlaggedWithinTheHorizon(int readings, bool isFlagged)
    {
        Falls(readings);

        Assert.Equal(isFlagged, _charge.Open is not null);
    }

    [Fact]
    public void Check_Within_CarriesRateLimitAndDays()
    {
        Falls(8);

        var flag = Assert.IsType<OpenFlag>(_charge.Open);
        Assert.Equal((DriftRule.RuleCode, ParameterCodes.Ph, Verdict.Warning, Direction.Low), (flag.Rule, flag.Parameter, flag.Severity, flag.Direction));
        Assert.Equal((8.58m, 8.5m, -0.06m, 9.3m, 8m), (flag.Numbers[NumberNames.Value], flag.Numbers[NumberNames.Limit], flag.Numbers[NumberNames.SlopePerWeek], flag.Numbers[NumberNames.DaysUntil], flag.Numbers[NumberNames.Readings]));
    }

    [Fact]
    public void Check_RisingConcentration_IsFlaggedOnItsSide()
    {
        _charge.Reads(ParameterCodes.Concentration, 6.6m, 6.8m, 7.0m, 7.2m, 7.4m, 7.6m);

        Assert.Equal((ParameterCodes.Concentration, Direction.High), (_charge.Open?.Parameter, _charge.Open?.Direction));
    }

    // The refractometer rises to 7.6; beside the last reading a titration says 6.1, which has no past of its own. What is told is of one method.
    [Fact]
    public void Check_TrendOfOneMethodBesideAnother_TellsTheValueOfTheTrend()
    {
        foreach (var percent in new[] { 6.6m, 6.8m, 7.0m, 7.2m, 7.4m })
        {
            _charge.Reads(Some.Measured(ParameterCodes.Concentration, percent, MethodCodes.Refractometer));
            _charge.After(7);
        }

        _charge.Reads(Some.Measured(ParameterCodes.Concentration, 7.6m, MethodCodes.Refractometer), Some.Measured(ParameterCodes.Concentration, 6.1m, MethodCodes.Titration));

        Assert.Equal((7.6m, 14.0m), (_charge.Open?.Numbers[NumberNames.Value], _charge.Open?.Numbers[NumberNames.DaysUntil]));
    }

    [Fact]
    public void Check_TooFewReadings_HasNoOpinion()
    {
        _charge.Reads(ParameterCodes.Concentration, 6.8m, 7.0m, 7.2m, 7.4m, 7.6m);

        Assert.Null(_charge.Open);
    }

    // Up and down by as much: no trend, however near the limit is.
    [Fact]
    public void Check_NoTrend_IsNone()
    {
        _charge.Reads(ParameterCodes.Concentration, 7.7m, 7.9m, 7.6m, 7.8m, 7.9m, 7.6m, 7.8m, 7.7m);

        Assert.Null(_charge.Open);
    }

    [Fact]
    public void Check_LimitCrossed_IsTheLimitsToSay()
    {
        Falls(8);
        _charge.Reads(ParameterCodes.Ph, 8.45m);

        Assert.Null(_charge.Open);
    }

    [Fact]
    public void Check_TrendGone_Clears()
    {
        Falls(8);
        _charge.Reads(ParameterCodes.Ph, 8.8m, 8.9m, 8.9m, 9.0m, 8.9m, 9.0m);

        Assert.Null(_charge.Open);
    }

    // Half of the fluid was exchanged: what it was before says nothing of the mix now.
    [Fact]
    public void Check_LargeExchange_BeginsAnew()
    {
        for (var week = 0; week < 8; week++)
        {
            _charge.Reads(Some.Measured(ParameterCodes.Ph, 9.0m - (0.06m * week)), Some.Measured(ParameterCodes.Level, 300));
            _charge.After(7);
        }

        Assert.NotNull(_charge.Open);
        _charge.After(-6).Moves(removed: 160);
        _charge.Moves(water: 150, concentrate: 10).After(6);
        _charge.Reads(Some.Measured(ParameterCodes.Ph, 8.55m), Some.Measured(ParameterCodes.Level, 300));

        Assert.Null(_charge.Open);
    }

    [Fact]
    public void Check_HorizonTuned_IsTaken()
    {
        _charge.Numbers["horizonDays"] = 7;
        Falls(8);
        Assert.Null(_charge.Open);

        _charge.Reads(ParameterCodes.Ph, 8.52m);
        Assert.NotNull(_charge.Open);
    }

    [Fact]
    public void Check_NoLimits_IsNone()
    {
        var charge = new Charge(new DriftRule());
        charge.Reads(ParameterCodes.Ph, 9.0m, 8.9m, 8.8m, 8.7m, 8.6m, 8.5m, 8.4m);

        Assert.Null(charge.Open);
    }

    [Theory]
    [InlineData(ParameterCodes.Ph, false, new[] { TaskKind.Test })]
    [InlineData(ParameterCodes.Ph, true, new[] { TaskKind.Inspect, TaskKind.Test })]
    [InlineData(ParameterCodes.Concentration, true, new[] { TaskKind.Adjust, TaskKind.Test })]
    public void WorkFor_ConfirmedOrNot_IsTestThenWork(string parameter, bool isConfirmed, TaskKind[] expected) =>
        Assert.Equal(expected, new DriftRule().WorkFor(new(parameter, Verdict.Warning, Direction.Low), isConfirmed));

    [Theory]
    [InlineData(0, 1)]
    [InlineData(1.9, 1)]
    [InlineData(9, 4.5)]
    [InlineData(40, 7)]
    public void WorkWithin_DaysLeft_IsHalfOfThem(double days, double expected) =>
        Assert.Equal(
            TimeSpan.FromDays(expected),
            new DriftRule().WorkWithin(new(DriftRule.RuleCode, 1, ParameterCodes.Ph, Verdict.Warning, Direction.Low, new Dictionary<string, decimal> { [NumberNames.DaysUntil] = (decimal)days })));

    [Fact]
    public void AsksForASecondLook_EarlierTest_IsNone() => Assert.False(Rules.Advice.CorrectiveWork.AsksForASecondLook($"{DriftRule.RuleCode}:{ParameterCodes.Ph}"));

    private void Falls(int readings) => _charge.Reads(ParameterCodes.Ph, [.. Enumerable.Range(0, readings).Select(week => 9.0m - (0.06m * week))]);
}
