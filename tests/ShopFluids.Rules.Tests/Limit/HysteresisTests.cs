using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Limit;

namespace ShopFluids.Rules.Tests.Limit;

public sealed class HysteresisTests
{
    private static readonly Guid Flag = Some.Id(100);

    [Theory]
    [InlineData("4.9")]
    [InlineData("5.0")]
    [InlineData("5.19")]
    public void Evaluate_OpenWarningShortOfTheMargin_StaysOpen(string value)
    {
        var evaluation = After(Verdict.Warning, Direction.Low, value);

        Assert.Empty(evaluation.Cleared);
        Assert.Empty(evaluation.Raised);
    }

    [Theory]
    [InlineData(Direction.Low, "5.2")]
    [InlineData(Direction.Low, "6.0")]
    [InlineData(Direction.High, "7.8")]
    public void Evaluate_OpenWarningInsideByTheMargin_Clears(Direction direction, string value)
    {
        var evaluation = After(Verdict.Warning, direction, value);

        Assert.Equal([Flag], evaluation.Cleared);
        Assert.Empty(evaluation.Raised);
        Assert.Equal(Verdict.InRange, evaluation.Verdict);
    }

    [Fact]
    public void Evaluate_ValueInsideTheMargin_IsJudgedInRangeThoughTheFlagStays() =>
        Assert.Equal(Verdict.InRange, After(Verdict.Warning, Direction.Low, "5.1").Verdict);

    [Fact]
    public void Evaluate_WarningBecomesAction_OldFlagEndsAndAnotherBegins()
    {
        var evaluation = After(Verdict.Warning, Direction.Low, "3.9");

        Assert.Equal([Flag], evaluation.Cleared);
        Assert.Equal(Verdict.Action, Assert.Single(evaluation.Raised).Severity);
    }

    [Theory]
    [InlineData("4.0", 0)]
    [InlineData("4.19", 0)]
    [InlineData("4.2", 1)]
    [InlineData("4.9", 1)]
    public void Evaluate_ActionBecomesWarning_OnlyAfterTheMargin(string value, int replaced)
    {
        var evaluation = After(Verdict.Action, Direction.Low, value);

        Assert.Equal(replaced, evaluation.Cleared.Count);
        Assert.Equal(replaced, evaluation.Raised.Count(f => f.Severity == Verdict.Warning));
    }

    // The upper side alike: 9.0 less the margin.
    [Theory]
    [InlineData("8.81", 0)]
    [InlineData("8.8", 1)]
    public void Evaluate_ActionBecomesWarningOnTheUpperSide_OnlyAfterTheMargin(string value, int replaced)
    {
        var evaluation = After(Verdict.Action, Direction.High, value);

        Assert.Equal(replaced, evaluation.Cleared.Count);
        Assert.Equal(replaced, evaluation.Raised.Count(f => f.Severity == Verdict.Warning));
    }

    // Inside both limits at once: nothing is left of it.
    [Fact]
    public void Evaluate_ActionInsideAllLimits_Clears()
    {
        var evaluation = After(Verdict.Action, Direction.Low, "5.0");

        Assert.Equal([Flag], evaluation.Cleared);
        Assert.Empty(evaluation.Raised);
    }

    [Fact]
    public void Evaluate_BeyondOnTheOtherSide_OldFlagEndsAndAnotherBegins()
    {
        var evaluation = After(Verdict.Action, Direction.Low, "8.5");

        Assert.Equal([Flag], evaluation.Cleared);
        Assert.Equal((Verdict.Warning, Direction.High), (Assert.Single(evaluation.Raised).Severity, evaluation.Raised[0].Direction));
    }

    [Fact]
    public void Evaluate_SameValueAgain_RaisesNothingTwice() => Assert.Empty(After(Verdict.Warning, Direction.Low, "4.5").Raised);

    [Fact]
    public void Evaluate_AnotherParameter_LeavesTheFlagOpen()
    {
        var evaluation = Some.Evaluate(Some.Measured(ParameterCodes.Ph, 9m), Open(Verdict.Warning, Direction.Low), Some.Limits(), Some.Limits(ParameterCodes.Ph, null, 8.5m, null, null));

        Assert.Empty(evaluation.Cleared);
    }

    [Fact]
    public void Evaluate_LimitTakenAway_FlagEnds() =>
        Assert.Equal([Flag], Some.Evaluate(Some.Measured(ParameterCodes.Concentration, 4m), Open(Verdict.Warning, Direction.Low), Some.Limits(ParameterCodes.Ph)).Cleared);

    [Fact]
    public void Evaluate_LimitOfThatSideTakenAway_FlagEnds() =>
        Assert.Equal([Flag], Some.Evaluate(Some.Measured(ParameterCodes.Concentration, 3m), Open(Verdict.Warning, Direction.Low), Some.Limits(actionLow: null, warningLow: null)).Cleared);

    [Fact]
    public void Evaluate_EdgeIsBeyondWithoutMargin_OnTheLimitStaysOpen()
    {
        var evaluation = Some.Evaluate(Some.Measured(ParameterCodes.Concentration, 5m), Open(Verdict.Warning, Direction.Low), Some.Limits(edgeIsBeyond: true, clearMargin: 0m));

        Assert.Empty(evaluation.Cleared);
    }

    [Fact]
    public void Evaluate_ReadingOlderThanTheLatestValue_IsJudgedButTouchesNoFlag()
    {
        var standing = Open(Verdict.Warning, Direction.Low) with
        {
            Latest = new Dictionary<string, LatestValue> { [ParameterCodes.Concentration] = Some.Latest(4.5m, Some.Now.AddMinutes(1)) },
        };

        var evaluation = Some.Evaluate(Some.Measured(ParameterCodes.Concentration, 6m), standing, Some.Limits());

        Assert.Equal(Verdict.InRange, evaluation.Verdict);
        Assert.Empty(evaluation.Cleared);
    }

    private static StandingFacts Open(Verdict severity, Direction direction) =>
        Some.Standing(flags: [Some.Flag(LimitRule.Code, ParameterCodes.Concentration, severity, direction)]);

    private static Evaluation After(Verdict severity, Direction direction, string value) =>
        Some.Evaluate(
            Some.Measured(ParameterCodes.Concentration, decimal.Parse(value, System.Globalization.CultureInfo.InvariantCulture)),
            Open(severity, direction),
            Some.Limits());
}
