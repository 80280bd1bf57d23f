using ShopFluids.Rules.Disagreement;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.Disagreement;

/// <summary>Refractometer and titration of one sample. Uncertainties 0.3 and 0.4 % v/v: together 0.5, of a ratio near 1 at 8 % about 0.063.</summary>
public sealed class DisagreementRuleTests
{
    private readonly Charge _charge = new(new DisagreementRule());

    [Theory]
    [InlineData(8.0, 8.0, null)]
    [InlineData(8.5, 8.0, null)]
    [InlineData(8.6, 8.0, Direction.High)]
    [InlineData(10.0, 8.0, Direction.High)]
    [InlineData(7.5, 8.0, null)]
    [InlineData(7.4, 8.0, Direction.Low)]
    public void Check_BothOnOneSample_IsFlaggedBeyondTheirUncertainty(double refractometer, double titration, Direction? expected)
    {
        Both((decimal)refractometer, (decimal)titration);

        Assert.Equal(expected, _charge.Open?.Direction);
    }

    [Fact]
    public void Check_Beyond_CarriesWhatBothSaidAndIsAboutTheSump()
    {
        Both(10.0m, 8.0m);

        var flag = Assert.IsType<OpenFlag>(_charge.Open);
        Assert.Equal((DisagreementRule.RuleCode, "", Verdict.Warning), (flag.Rule, flag.Parameter, flag.Severity));
        Assert.Equal((10.0m, 8.0m, 1.25m), (flag.Numbers[NumberNames.Refractometer], flag.Numbers[NumberNames.Titration], flag.Numbers[NumberNames.Ratio]));
    }

    [Fact]
    public void Check_OneMethodOnly_LeavesTheFlag()
    {
        Both(10.0m, 8.0m);
        _charge.After(7).Reads(Refractometer(8.0m));

        Assert.NotNull(_charge.Open);
    }

    [Fact]
    public void Check_BothAgreeAgain_Clears()
    {
        Both(10.0m, 8.0m);
        _charge.After(7);
        Both(8.1m, 8.0m);

        Assert.Null(_charge.Open);
    }

    [Fact]
    public void Check_OtherSideNextTime_IsAnotherFlag()
    {
        Both(10.0m, 8.0m);
        _charge.After(7);
        Both(6.0m, 8.0m);

        Assert.Equal((Direction.Low, 2), (_charge.Open?.Direction, _charge.Raised));
    }

    [Theory]
    [InlineData(0.1, true)]
    [InlineData(1.0, false)]
    public void Check_TitratedLater_CountsOnTheSameShopDayOnly(double days, bool isFlagged)
    {
        _charge.Reads(Refractometer(10.0m));
        _charge.After(days).Reads(Titration(8.0m));

        Assert.Equal(isFlagged, _charge.Open is not null);
    }

    // Somebody read only the pH in between.
    [Fact]
    public void Check_AnotherReadingBetweenTheTwo_IsPassedOver()
    {
        _charge.Reads(Refractometer(10.0m));
        _charge.After(0.05).Reads(Some.Measured(ParameterCodes.Ph, 9));
        _charge.After(0.05).Reads(Titration(8.0m));

        Assert.Equal(Direction.High, _charge.Open?.Direction);
    }

    // At the very moment of the first reading something was put in: after it.
    [Fact]
    public void Check_AdditionAtTheMomentOfTheFirst_IsNotOneSample()
    {
        _charge.Reads(Some.Measured(ParameterCodes.Ph, 9));
        _charge.After(0.05).Reads(Refractometer(10.0m));
        _charge.Moves(water: 20);
        _charge.After(0.05).Reads(Titration(8.0m));

        Assert.Null(_charge.Open);
    }

    [Fact]
    public void Check_AdditionBetweenTheTwo_IsNotOneSample()
    {
        _charge.Reads(Refractometer(10.0m));
        _charge.After(0.05).Moves(water: 20);
        _charge.After(0.05).Reads(Titration(8.0m));

        Assert.Null(_charge.Open);
    }

    [Fact]
    public void Check_LeastDifferenceRaised_LeavesSmallerOnes()
    {
        _charge.Numbers[DisagreementRule.LeastDifference] = 2m;
        Both(10.0m, 8.0m);
        Assert.Null(_charge.Open);

        _charge.After(7);
        Both(10.1m, 8.0m);
        Assert.NotNull(_charge.Open);
    }

    [Theory]
    [InlineData(Direction.High, TaskKind.Skim)]
    [InlineData(Direction.Low, TaskKind.Calibrate)]
    public void WorkFor_EachSide_IsItsOwn(Direction side, TaskKind expected) =>
        Assert.Equal([expected], new DisagreementRule().WorkFor(new("", Verdict.Warning, side), isConfirmed: false));

    [Fact]
    public void Check_LaterValueKnown_HasNoOpinion()
    {
        var reading = new ReadingFacts(Some.Id(7), Some.Now, [Refractometer(10m), Titration(8m)]);

        Assert.Empty(_charge.Judge(reading, laterKnown: Some.Now.AddHours(1)));
    }

    private void Both(decimal refractometer, decimal titration) => _charge.Reads(Refractometer(refractometer), Titration(titration));

    private static MeasurementFacts Refractometer(decimal value) => new(ParameterCodes.Concentration, MethodCodes.Refractometer, value, 0.3m);

    private static MeasurementFacts Titration(decimal value) => new(ParameterCodes.Concentration, MethodCodes.Titration, value, 0.4m);
}
