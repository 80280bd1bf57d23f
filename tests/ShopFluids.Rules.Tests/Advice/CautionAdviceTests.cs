using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests.Advice;

public sealed class CautionAdviceTests
{
    private static readonly ParameterLimits[] Limits = [.. ShippedLimits.Default(5m, 8m).Select(l => l.Limits)];

    [Theory]
    [InlineData(ParameterCodes.Ph, 9, new Caution[0])]
    [InlineData(ParameterCodes.Odour, 1, new Caution[0])]
    [InlineData(ParameterCodes.Odour, 2, new[] { Caution.HydrogenSulphide, Caution.ResidualCurrent, Caution.BiocideByLabel })]
    [InlineData(ParameterCodes.Odour, 3, new[] { Caution.HydrogenSulphide, Caution.LockOut, Caution.BiocideByLabel, Caution.GlovesAndGoggles, Caution.RegulatedWaste })]
    [InlineData(ParameterCodes.TrampOil, 20, new[] { Caution.ResidualCurrent })]
    [InlineData(ParameterCodes.Fines, 2, new[] { Caution.LockOut })]
    [InlineData(ParameterCodes.Ph, 8.4, new[] { Caution.BiocideByLabel })]
    [InlineData(ParameterCodes.Ph, 10.1, new[] { Caution.OccupationalHealth })]
    [InlineData(ParameterCodes.Nitrite, 21, new[] { Caution.LockOut, Caution.Nitrosamines, Caution.GlovesAndGoggles, Caution.RegulatedWaste })]
    public void Evaluate_Finding_CarriesItsCautionsMostImportantFirst(string parameter, double value, Caution[] cautions) =>
        Assert.Equal(cautions, Some.Evaluate(Some.Measured(parameter, (decimal)value), null, Limits).Cautions);

    [Theory]
    [InlineData(ParameterCodes.Odour, NumberNames.Value, 3, true)]
    [InlineData(ParameterCodes.Odour, NumberNames.Value, 2, true)]
    [InlineData(ParameterCodes.Odour, NumberNames.Value, 1, false)]
    [InlineData(ParameterCodes.Ph, NumberNames.Odour, 3, true)]
    [InlineData(ParameterCodes.Ph, NumberNames.Value, 9, false)]
    public void WarnsOfGas_FlagByASmell_FromSourOn(string parameter, string number, double value, bool expected) =>
        Assert.Equal(expected, CautionAdvice.WarnsOfGas(parameter, new Dictionary<string, decimal> { [number] = (decimal)value }));

    [Fact]
    public void Evaluate_RecipeWithConcentrate_SaysGlovesAndWhichIntoWhich()
    {
        var reading = Some.Reading(Some.Measured(ParameterCodes.Level, 200m), Some.Measured(ParameterCodes.Concentration, 6m));

        Assert.Equal([Caution.GlovesAndGoggles, Caution.ConcentrateIntoWater], RulesService.Evaluate(Some.Input(reading)).Cautions);
    }

    // 250 L at 7.2 % hold all the product of 300 L at 6 %: 50 L of water, and nobody handles concentrate.
    [Fact]
    public void Evaluate_RecipeOfWaterAlone_SaysNothing()
    {
        var reading = Some.Reading(Some.Measured(ParameterCodes.Level, 250m), Some.Measured(ParameterCodes.Concentration, 7.2m));

        var evaluation = RulesService.Evaluate(Some.Input(reading));

        Assert.Equal((0.0, 50.0), (evaluation.Recipe?.ConcentrateLitres, evaluation.Recipe?.WaterLitres));
        Assert.Empty(evaluation.Cautions);
    }

    // What else was measured takes nothing from the smell.
    [Fact]
    public void Evaluate_SmellAmongOtherValues_WarnsOfHydrogenSulphide()
    {
        var reading = Some.Reading(Some.Measured(ParameterCodes.Ph, 9m), Some.Measured(ParameterCodes.Odour, 3m));

        Assert.Equal(Caution.HydrogenSulphide, RulesService.Evaluate(Some.Input(reading, limits: Limits)).Cautions[0]);
    }

    [Fact]
    public void Evaluate_RecipeThatRemoves_SaysRegulatedWaste()
    {
        var reading = Some.Reading(Some.Measured(ParameterCodes.Level, 300m), Some.Measured(ParameterCodes.Concentration, 2m));

        Assert.Contains(Caution.RegulatedWaste, RulesService.Evaluate(Some.Input(reading)).Cautions);
    }
}
