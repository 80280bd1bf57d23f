using ShopFluids.Calculations.Mixing;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.RunDry;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests.Advice;

/// <summary>The sump of the tests holds 1 L for each mm, is topped up to 300 mm, and its fluid aims at 6 %.</summary>
public sealed class RecipeAdviceTests
{
    private static readonly ParameterLimits[] Limits = [.. ShippedLimits.Default(5m, 8m).Select(l => l.Limits), CommonPractice.Level(300m, 80m).Limits];

    [Fact]
    public void Evaluate_LevelAndConcentration_PlansToTheFullMarkAtTheTarget()
    {
        // x = 300 L x 6 % - 200 L x 5 % = 8 L of concentrate in 100 L of premix.
        var recipe = Plan(Some.Standing(), Some.Measured(ParameterCodes.Level, 200m), Some.Measured(ParameterCodes.Concentration, 5m));

        Assert.Equal((TopUpCase.TopUp, 8.0, 92.0), (recipe?.Case, recipe?.ConcentrateLitres, recipe?.WaterLitres));
        Assert.Equal(300.0, recipe?.ExpectedLitres);
        Assert.Equal(6.0, recipe?.ExpectedPercent ?? 0, 9);
    }

    [Fact]
    public void Evaluate_OnlyLevel_UsesTheConcentrationOfTheLastDay()
    {
        var standing = Some.Standing(latest: [(ParameterCodes.Concentration, Some.Latest(5m, Some.Now.AddHours(-24)))]);

        Assert.Equal(8.0, Plan(standing, Some.Measured(ParameterCodes.Level, 200m))?.ConcentrateLitres);
    }

    [Fact]
    public void Evaluate_OnlyConcentration_UsesTheLevelOfTheLastDay()
    {
        var standing = Some.Standing(latest: [(ParameterCodes.Level, Some.Latest(200m, Some.Now.AddHours(-24)))]);

        Assert.Equal(8.0, Plan(standing, Some.Measured(ParameterCodes.Concentration, 5m))?.ConcentrateLitres);
    }

    [Fact]
    public void Evaluate_OtherHalfTooOld_HasNoRecipe()
    {
        var standing = Some.Standing(latest: [(ParameterCodes.Concentration, Some.Latest(5m, Some.Now.AddHours(-24).AddTicks(-1)))]);

        Assert.Null(Plan(standing, Some.Measured(ParameterCodes.Level, 200m)));
    }

    // Minutes are counted from the reading: the other half is an hour old.
    [Theory]
    [InlineData(ParameterCodes.Level, ParameterCodes.Concentration, -59)]
    [InlineData(ParameterCodes.Level, ParameterCodes.Concentration, 1)]
    [InlineData(ParameterCodes.Concentration, ParameterCodes.Level, -59)]
    public void Evaluate_FluidMovedSinceTheOtherHalf_HasNoRecipe(string measured, string other, int movedMinutes)
    {
        var standing = Some.Standing(latest: [(other, Some.Latest(ValueOf(other), Some.Now.AddHours(-1)))]) with { LastMovedAt = Some.Now.AddMinutes(movedMinutes) };

        Assert.Null(Plan(standing, Some.Measured(measured, ValueOf(measured))));
    }

    [Theory]
    [InlineData(ParameterCodes.Level, ParameterCodes.Concentration)]
    [InlineData(ParameterCodes.Concentration, ParameterCodes.Level)]
    public void Evaluate_FluidMovedBeforeTheOtherHalf_HasARecipe(string measured, string other)
    {
        var standing = Some.Standing(latest: [(other, Some.Latest(ValueOf(other), Some.Now.AddHours(-1)))]) with { LastMovedAt = Some.Now.AddHours(-1) };

        Assert.Equal(8.0, Plan(standing, Some.Measured(measured, ValueOf(measured)))?.ConcentrateLitres);
    }

    [Fact]
    public void Evaluate_FluidMovedAfterAReadingThatArrivesLate_HasNoRecipe() =>
        Assert.Null(Plan(Some.Standing() with { LastMovedAt = Some.Now.AddMinutes(1) }, Some.Measured(ParameterCodes.Level, 200m), Some.Measured(ParameterCodes.Concentration, 5m)));

    [Fact]
    public void Evaluate_LateReadingWithAnOlderLevel_PlansFromTheLaterLevel()
    {
        var standing = Some.Standing(latest: [(ParameterCodes.Level, Some.Latest(200m, Some.Now.AddHours(1)))]);

        Assert.Equal(8.0, Plan(standing, Some.Measured(ParameterCodes.Level, 100m), Some.Measured(ParameterCodes.Concentration, 5m))?.ConcentrateLitres);
    }

    [Fact]
    public void Evaluate_NeitherMeasured_HasNoRecipe()
    {
        var standing = Some.Standing(latest: [(ParameterCodes.Concentration, Some.Latest(5m, Some.Now)), (ParameterCodes.Level, Some.Latest(200m, Some.Now))]);

        Assert.Null(Plan(standing, Some.Measured(ParameterCodes.Ph, 9m)));
    }

    [Fact]
    public void Evaluate_ConcentrationUnknown_HasNoRecipe() => Assert.Null(Plan(Some.Standing(), Some.Measured(ParameterCodes.Level, 200m)));

    [Theory]
    [InlineData(-1)]
    [InlineData(401)]
    public void Evaluate_LevelOutsideTheSump_HasNoRecipe(int level) =>
        Assert.Null(Plan(Some.Standing(), Some.Measured(ParameterCodes.Level, level), Some.Measured(ParameterCodes.Concentration, 5m)));

    [Theory]
    [InlineData(0, 5.0)]
    [InlineData(400, 5.0)]
    [InlineData(200, 0.0)]
    [InlineData(200, 100.0)]
    public void Evaluate_AtTheEdgeOfWhatThereCanBe_HasARecipe(int level, double percent) =>
        Assert.NotNull(Plan(Some.Standing(), Some.Measured(ParameterCodes.Level, level), Some.Measured(ParameterCodes.Concentration, (decimal)percent)));

    [Theory]
    [InlineData(-0.1)]
    [InlineData(100.1)]
    public void Evaluate_NoShareOfTheMix_HasNoRecipe(double percent) =>
        Assert.Null(Plan(Some.Standing(), Some.Measured(ParameterCodes.Level, 200m), Some.Measured(ParameterCodes.Concentration, (decimal)percent)));

    // The band of the concentration decides, not that of the pH, whose row stands before it.
    [Fact]
    public void Evaluate_LimitsOfOtherParametersFirst_TakesThoseOfTheConcentration()
    {
        var reading = Some.Reading(Some.Measured(ParameterCodes.Level, 300m), Some.Measured(ParameterCodes.Concentration, 8.1m));
        var input = Some.Input(reading, limits: [Some.Limits(ParameterCodes.Ph, 8.2m, 8.5m, 9.5m, 10m), Some.Limits()]);

        Assert.Equal(TopUpCase.SwapAtLevel, RulesService.Evaluate(input).Recipe?.Case);
    }

    [Fact]
    public void Evaluate_TitrationAndRefractometer_PlansFromTitration()
    {
        var recipe = Plan(
            Some.Standing(),
            Some.Measured(ParameterCodes.Level, 200m),
            Some.Measured(ParameterCodes.Concentration, 7m, MethodCodes.Refractometer),
            Some.Measured(ParameterCodes.Concentration, 5m, MethodCodes.Titration));

        Assert.Equal(8.0, recipe?.ConcentrateLitres);
    }

    [Theory]
    [InlineData("5.1", TopUpCase.SwapAtLevel)]
    [InlineData("5.2", TopUpCase.NothingToAdd)]
    [InlineData("7.8", TopUpCase.NothingToAdd)]
    [InlineData("7.9", TopUpCase.SwapAtLevel)]
    [InlineData("8.1", TopUpCase.SwapAtLevel)]
    public void Evaluate_FullSump_ThrowsNoFluidAwayForAValueThatIsInRange(string percent, TopUpCase expected)
    {
        var value = decimal.Parse(percent, System.Globalization.CultureInfo.InvariantCulture);

        Assert.Equal(expected, Plan(Some.Standing(), Some.Measured(ParameterCodes.Level, 300m), Some.Measured(ParameterCodes.Concentration, value))?.Case);
    }

    // Rotten egg: the fluid is drained, and nobody pours concentrate into it before. What an earlier reading asked for goes as well.
    [Fact]
    public void Evaluate_FluidIsToBeDrained_HasNoRecipeAndNoAdjusting()
    {
        var standing = Some.Standing(tasks: [Some.Task(TaskKind.Adjust, "limit:level")]);
        var reading = Some.Reading(Some.Measured(ParameterCodes.Level, 200m), Some.Measured(ParameterCodes.Concentration, 3m), Some.Measured(ParameterCodes.Odour, 3m));

        var evaluation = RulesService.Evaluate(Some.Input(reading, standing, Limits));

        Assert.Null(evaluation.Recipe);
        Assert.Contains(evaluation.NewTasks, t => t.Kind == TaskKind.DrainClean);
        Assert.DoesNotContain(evaluation.NewTasks, t => t.Kind == TaskKind.Adjust);
        Assert.Equal([Some.Id(200)], evaluation.WithdrawnTasks);
        Assert.DoesNotContain(Caution.ConcentrateIntoWater, evaluation.Cautions);
    }

    // Level under the pump intake: the pump must not run dry while the machine still runs.
    [Fact]
    public void Evaluate_FluidIsToBeDrainedAndThePumpRunsDry_FillingUpIsAskedForWithoutARecipe()
    {
        var reading = Some.Reading(Some.Measured(ParameterCodes.Level, 40m), Some.Measured(ParameterCodes.Concentration, 3m), Some.Measured(ParameterCodes.Odour, 3m));

        var evaluation = RulesService.Evaluate(Some.Input(reading, limits: Limits));

        Assert.Contains(evaluation.Raised, f => f.Rule == RunDryRule.RuleCode);
        Assert.StartsWith("run-dry:", Assert.Single(evaluation.NewTasks, t => t.Kind == TaskKind.Adjust).Cause, StringComparison.Ordinal);
        Assert.Null(evaluation.Recipe);
    }

    // Partial exchange or inhibitor may do: DGUV Regel 109-003, Annex 3, no. 5.
    [Fact]
    public void Evaluate_NitriteAtAction_StillHasARecipe()
    {
        var standing = Some.Standing(flags: [Some.Flag(LimitRule.Code, ParameterCodes.Nitrite, Verdict.Action, Direction.High)]);

        Assert.NotNull(Plan(standing, Some.Measured(ParameterCodes.Level, 200m), Some.Measured(ParameterCodes.Concentration, 5m)));
    }

    // The smell is gone, and what was left for the draining is asked for after all.
    [Fact]
    public void Evaluate_FluidIsNoLongerToBeDrained_AdjustingIsAskedForAgain()
    {
        var standing = Some.Standing(
            flags: [Some.Flag(LimitRule.Code, ParameterCodes.Odour, Verdict.Action, Direction.High), Some.Flag(LimitRule.Code, ParameterCodes.Level, Verdict.Action, Direction.Low, 101)],
            tasks: [Some.Task(TaskKind.DrainClean, "limit:odour")]);

        var evaluation = RulesService.Evaluate(Some.Input(Some.Reading(Some.Measured(ParameterCodes.Odour, 0m)), standing, Limits));

        Assert.Equal([Some.Id(200)], evaluation.WithdrawnTasks);
        Assert.Contains((TaskKind.Adjust, "limit:level"), evaluation.NewTasks.Select(t => (t.Kind, t.Cause)));
    }

    // The flag of an earlier reading, on something that this one does not measure.
    [Theory]
    [InlineData(Verdict.Action, false)]
    [InlineData(Verdict.Warning, true)]
    public void Evaluate_OpenFlagOfAnEarlierReadingAsksToDrain_HasNoRecipe(Verdict severity, bool hasRecipe)
    {
        var standing = Some.Standing(flags: [Some.Flag(LimitRule.Code, ParameterCodes.Bacteria, severity, Direction.High)]);

        Assert.Equal(hasRecipe, Plan(standing, Some.Measured(ParameterCodes.Level, 200m), Some.Measured(ParameterCodes.Concentration, 5m)) is not null);
    }

    private static decimal ValueOf(string parameter) => parameter == ParameterCodes.Level ? 200m : 5m;

    private static TopUpRecipe? Plan(StandingFacts standing, params MeasurementFacts[] measurements) =>
        RulesService.Evaluate(Some.Input(Some.Reading(measurements), standing)).Recipe;
}
