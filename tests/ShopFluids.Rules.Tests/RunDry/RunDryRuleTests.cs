using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.RunDry;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.RunDry;

/// <summary>What is above the pump's intake. The sump holds 1 L for each mm: intake at 80, full mark at 300, so 20 % of the range are 44 L.</summary>
public sealed class RunDryRuleTests
{
    [Theory]
    [InlineData(125, null)]
    [InlineData(124, null)]
    [InlineData(123, Verdict.Warning)]
    [InlineData(81, Verdict.Warning)]
    [InlineData(80, Verdict.Action)]
    [InlineData(0, Verdict.Action)]
    public void Check_Level_IsFlaggedBelowWhatIsOnItsWay(int level, Verdict? expected)
    {
        var charge = new Charge(new RunDryRule());
        charge.Reads(Some.Measured(ParameterCodes.Level, level));

        Assert.Equal(expected, charge.Open?.Severity);
    }

    [Fact]
    public void Check_Beyond_CarriesTheLitres()
    {
        var charge = new Charge(new RunDryRule());
        charge.Reads(Some.Measured(ParameterCodes.Level, 100));

        Assert.Equal((20m, 44m, 100m), (charge.Open?.Numbers[NumberNames.UsableLitres], charge.Open?.Numbers[NumberNames.NeededLitres], charge.Open?.Numbers[NumberNames.Value]));
    }

    [Theory]
    [InlineData(110, false)]
    [InlineData(109, true)]
    public void Check_NeededLitresKnown_AreTakenInsteadOfTheShare(int level, bool isFlagged)
    {
        var charge = new Charge(new RunDryRule());
        charge.Numbers[RunDryRule.NeededLitres] = 30;
        charge.Reads(Some.Measured(ParameterCodes.Level, level));

        Assert.Equal(isFlagged, charge.Open is not null);
    }

    // The level's own action limit asks for the same top-up; that the intake is bare is said besides.
    [Theory]
    [InlineData(110, false)]
    [InlineData(80, true)]
    public void Check_LevelBeyondItsActionLimit_OnlyTheBareIntakeIsSaid(int level, bool isFlagged)
    {
        var charge = new Charge(new RunDryRule(), Some.Limits(ParameterCodes.Level, actionLow: 135, warningLow: 190, warningHigh: null, actionHigh: null));
        charge.Reads(Some.Measured(ParameterCodes.Level, level));

        Assert.Equal(isFlagged, charge.Open is not null);
    }

    // Only the level's own action limit on its lower side says the same: no warning, no limit of the fall or of anything else, and not that it is too full.
    [Theory]
    [InlineData(ParameterCodes.Level, LimitBasis.Value, 135, 190, null, false)]
    [InlineData(ParameterCodes.Level, LimitBasis.Value, null, 190, null, true)]
    [InlineData(ParameterCodes.Ph, LimitBasis.Value, 135, 190, null, true)]
    [InlineData(ParameterCodes.Level, LimitBasis.DropFromFirstFill, null, null, 5, true)]
    [InlineData(ParameterCodes.Level, LimitBasis.Value, null, null, 100, true)]
    public void Check_OtherLimits_DoNotSayTheSame(string parameter, LimitBasis basis, int? actionLow, int? warningLow, int? actionHigh, bool isFlagged)
    {
        var charge = new Charge(new RunDryRule(), Some.Limits(parameter, actionLow, warningLow, null, actionHigh, basis: basis));

        charge.Reads(Some.Measured(ParameterCodes.Level, 110));

        Assert.Equal(isFlagged, charge.Open is not null);
    }

    [Theory]
    [InlineData(-1, 0)]
    [InlineData(0, 1)]
    [InlineData(400, 1)]
    [InlineData(401, 0)]
    public void Check_LevelOutsideTheSump_HasNoOpinion(int level, int opinions) =>
        Assert.Equal(opinions, new Charge(new RunDryRule()).Reads(Some.Measured(ParameterCodes.Level, level)).Count);

    // Half of the 220 L between intake and full mark.
    [Theory]
    [InlineData(190, false)]
    [InlineData(189, true)]
    public void Check_ShareTuned_IsTaken(int level, bool isFlagged)
    {
        var charge = new Charge(new RunDryRule());
        charge.Numbers[RunDryRule.NeededPercent] = 50;

        charge.Reads(Some.Measured(ParameterCodes.Level, level));

        Assert.Equal(isFlagged, charge.Open is not null);
    }

    // Under the intake nothing can be pumped: it is told as none, not as less than none.
    [Fact]
    public void Check_LevelUnderTheIntake_TellsNoLitres()
    {
        var charge = new Charge(new RunDryRule());

        charge.Reads(Some.Measured(ParameterCodes.Level, 60));

        Assert.Equal(0m, charge.Open?.Numbers[NumberNames.UsableLitres]);
    }

    [Fact]
    public void Check_ToppedUp_Clears()
    {
        var charge = new Charge(new RunDryRule());
        charge.Reads(Some.Measured(ParameterCodes.Level, 90));
        charge.After(1).Reads(Some.Measured(ParameterCodes.Ph, 9));
        Assert.NotNull(charge.Open);
        charge.After(1).Reads(Some.Measured(ParameterCodes.Level, 124));

        Assert.Null(charge.Open);
    }

    [Fact]
    public void Check_WarningBecomesBare_IsAnotherFlag()
    {
        var charge = new Charge(new RunDryRule());
        charge.Reads(Some.Measured(ParameterCodes.Level, 90));
        charge.After(1).Reads(Some.Measured(ParameterCodes.Level, 70));

        Assert.Equal((Verdict.Action, 2), (charge.Open?.Severity, charge.Raised));
    }

    [Fact]
    public void Evaluate_BareIntake_AsksForATopUpAndWarnsOfThePump()
    {
        var evaluation = RulesService.Evaluate(Some.Input(
            Some.Reading(Some.Measured(ParameterCodes.Level, 75), Some.Measured(ParameterCodes.Concentration, 6)), limits: []));

        Assert.Equal(RunDryRule.RuleCode, Assert.Single(evaluation.Raised).Rule);
        Assert.Contains(evaluation.NewTasks, t => t.Kind == TaskKind.Adjust && t.FromRecipe);
        Assert.Contains(Caution.PumpRunsDry, evaluation.Cautions);
    }

    // With 20 L above the intake the pump still runs; it is to be topped up.
    [Fact]
    public void Evaluate_TooLittleAboveTheIntake_StopsNoPump()
    {
        var evaluation = RulesService.Evaluate(Some.Input(
            Some.Reading(Some.Measured(ParameterCodes.Level, 100), Some.Measured(ParameterCodes.Concentration, 6)), limits: []));

        Assert.Equal(Verdict.Warning, Assert.Single(evaluation.Raised).Severity);
        Assert.DoesNotContain(Caution.PumpRunsDry, evaluation.Cautions);
    }

    [Theory]
    [InlineData(0, true)]
    [InlineData(30, false)]
    public void Check_Beyond_TellsWhetherTheNeedIsGuessed(int needed, bool isGuessed)
    {
        var charge = new Charge(new RunDryRule());
        charge.Numbers[RunDryRule.NeededLitres] = needed;
        charge.Reads(Some.Measured(ParameterCodes.Level, 100));

        Assert.Equal(isGuessed, charge.Open?.Numbers.ContainsKey(NumberNames.NeededIsGuessed));
    }
}
