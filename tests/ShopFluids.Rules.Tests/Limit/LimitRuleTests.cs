using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Limit;

namespace ShopFluids.Rules.Tests.Limit;

public sealed class LimitRuleTests
{
    [Theory]
    [InlineData("3.99", Verdict.Action, Direction.Low, "4")]
    [InlineData("4.00", Verdict.Warning, Direction.Low, "5")]
    [InlineData("4.99", Verdict.Warning, Direction.Low, "5")]
    [InlineData("5.00", Verdict.InRange, Direction.None, null)]
    [InlineData("8.00", Verdict.InRange, Direction.None, null)]
    [InlineData("8.01", Verdict.Warning, Direction.High, "8")]
    [InlineData("9.00", Verdict.Warning, Direction.High, "8")]
    [InlineData("9.01", Verdict.Action, Direction.High, "9")]
    public void Judge_ValueOnALimit_IsInside(string value, Verdict verdict, Direction direction, string? limit)
    {
        var judged = LimitRow.Judge(Number(value), Some.Limits());

        Assert.Equal(new Judgement(verdict, direction, limit is null ? null : Number(limit)), judged);
    }

    [Theory]
    [InlineData("4.00", Verdict.Action, Direction.Low)]
    [InlineData("4.01", Verdict.Warning, Direction.Low)]
    [InlineData("5.00", Verdict.Warning, Direction.Low)]
    [InlineData("5.01", Verdict.InRange, Direction.None)]
    [InlineData("7.99", Verdict.InRange, Direction.None)]
    [InlineData("8.00", Verdict.Warning, Direction.High)]
    [InlineData("9.00", Verdict.Action, Direction.High)]
    public void Judge_EdgeIsBeyond_ValueOnALimitIsBeyond(string value, Verdict verdict, Direction direction)
    {
        var judged = LimitRow.Judge(Number(value), Some.Limits(edgeIsBeyond: true));

        Assert.Equal((verdict, direction), (judged?.Verdict, judged?.Direction));
    }

    [Fact]
    public void Judge_RowWithoutLimits_DoesNotJudge() =>
        Assert.Null(LimitRow.Judge(5m, Some.Limits(actionLow: null, warningLow: null, warningHigh: null, actionHigh: null)));

    [Fact]
    public void Judge_OnlyActionLow_Judges() =>
        Assert.Equal(Verdict.InRange, LimitRow.Judge(5m, Some.Limits(warningLow: null, warningHigh: null, actionHigh: null))?.Verdict);

    [Fact]
    public void Judge_OnlyWarningLow_Judges()
    {
        var row = Some.Limits(actionLow: null, warningHigh: null, actionHigh: null);

        Assert.Equal((Verdict.InRange, Verdict.Warning), (LimitRow.Judge(5m, row)?.Verdict, LimitRow.Judge(4.9m, row)?.Verdict));
    }

    // A rise is not a fall: of a row of falls the lower limits are not read.
    [Fact]
    public void Judge_FallWithLowerLimits_ReadsOnlyTheUpperOnes()
    {
        Assert.Null(LimitRow.Judge(-9m, Some.Limits(ParameterCodes.Ph, warningHigh: null, actionHigh: null, basis: LimitBasis.DropFromFirstFill)));
        Assert.Equal(Verdict.InRange, LimitRow.Judge(-9m, Some.Limits(ParameterCodes.Ph, basis: LimitBasis.DropFromFirstFill))?.Verdict);
    }

    [Fact]
    public void Raise_ValueInRange_IsAWrongCall() => Assert.Throws<ArgumentException>(() => LimitRule.Raise(6m, Judgement.InRange, Some.Limits()));

    [Theory]
    [InlineData("4.5", Direction.Low)]
    [InlineData("6.0", Direction.None)]
    [InlineData("8.5", Direction.High)]
    public void Evaluate_Measurement_TellsTheSideOnWhichItLies(string value, Direction side)
    {
        var judged = Assert.Single(Some.Evaluate(Some.Measured(ParameterCodes.Concentration, Number(value))).Measurements);

        Assert.Equal((side, LimitBasis.Value), (judged.Direction, judged.Basis));
    }

    [Fact]
    public void Evaluate_ParameterWithoutLimits_IsNotMeasured()
    {
        var evaluation = Some.Evaluate(Some.Measured("chloride", 90m));

        Assert.Equal([new JudgedMeasurement("chloride", "", Verdict.NotMeasured, Direction.None, null)], evaluation.Measurements);
        Assert.Equal(Verdict.NotMeasured, evaluation.Verdict);
        Assert.Empty(evaluation.Raised);
    }

    [Fact]
    public void Evaluate_SeveralMeasurements_ReadingHasTheWorstVerdict()
    {
        var reading = Some.Reading(Some.Measured(ParameterCodes.Concentration, 4.5m), Some.Measured(ParameterCodes.Ph, 8m), Some.Measured("chloride", 1m));

        var evaluation = RulesService.Evaluate(Some.Input(reading, limits: [Some.Limits(), Some.Limits(ParameterCodes.Ph, 8.2m, 8.5m, 9.5m, 10m)]));

        Assert.Equal([Verdict.Warning, Verdict.Action, Verdict.NotMeasured], evaluation.Measurements.Select(m => m.Verdict));
        Assert.Equal(Verdict.Action, evaluation.Verdict);
    }

    [Fact]
    public void Evaluate_EdgeIsBeyond_FlagSaysSo()
    {
        var row = Some.Limits(ParameterCodes.Bacteria, null, null, 4m, 6m, edgeIsBeyond: true, clearMargin: 0m);

        var flag = Assert.Single(Some.Evaluate(Some.Measured(ParameterCodes.Bacteria, 4m), null, row).Raised);

        Assert.Equal(
            new Dictionary<string, decimal> { [NumberNames.ClearsAt] = 4m, [NumberNames.EdgeIsBeyond] = 1, [NumberNames.Limit] = 4m, [NumberNames.Value] = 4m },
            flag.Numbers);
    }

    [Fact]
    public void Evaluate_BeyondWarning_FlagCarriesItsNumbers()
    {
        var flag = Assert.Single(Some.Evaluate(Some.Measured(ParameterCodes.Concentration, 4.8m)).Raised);

        Assert.Equal((LimitRule.Code, LimitRule.Version, Verdict.Warning, Direction.Low), (flag.Rule, flag.RuleVersion, flag.Severity, flag.Direction));
        Assert.Equal(
            new Dictionary<string, decimal> { [NumberNames.ClearsAt] = 5.2m, [NumberNames.Limit] = 5m, [NumberNames.Value] = 4.8m },
            flag.Numbers);
    }

    [Theory]
    [InlineData("4.5", "6.0", 0)]
    [InlineData("6.0", "4.5", 1)]
    public void Evaluate_TitrationAndRefractometer_BothAreJudgedAndTitrationFlags(string refractometer, string titration, int flags)
    {
        // DGUV Regel 109-003, 7.1.1: titration is independent of tramp oil, a refractometer is not.
        var reading = Some.Reading(
            Some.Measured(ParameterCodes.Concentration, Number(refractometer), MethodCodes.Refractometer),
            Some.Measured(ParameterCodes.Concentration, Number(titration), MethodCodes.Titration));

        var evaluation = RulesService.Evaluate(Some.Input(reading));

        Assert.Equal(1, evaluation.Measurements.Count(m => m.Verdict == Verdict.Warning));
        Assert.Equal(flags, evaluation.Raised.Count(f => f.Rule == LimitRule.Code));
    }

    [Fact]
    public void Evaluate_TwoOtherMethods_WorstFlags()
    {
        var reading = Some.Reading(Some.Measured(ParameterCodes.Ph, 8.6m, "meter"), Some.Measured(ParameterCodes.Ph, 8.1m, "strip"));

        var evaluation = RulesService.Evaluate(Some.Input(reading, limits: [Some.Limits(ParameterCodes.Ph, 8.2m, 8.5m, 9.5m, 10m)]));

        Assert.Equal((Verdict.Action, 8.1m), (Assert.Single(evaluation.Raised).Severity, evaluation.Raised[0].Numbers[NumberNames.Value]));
    }

    private static decimal Number(string text) => decimal.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
