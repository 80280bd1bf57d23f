using System.Globalization;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Disagreement;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Rules.Microbial;
using ShopFluids.Rules.RunDry;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Wording.Flags;

/// <summary>What the rules that see a cause say, in a German-style shop and in US units too.</summary>
public sealed class CauseSentenceTests
{
    [Theory]
    [EachDatabase(Direction.High, "Refractometer 10,0 %, titration 8,0 %: they do not agree.")]
    [EachDatabase(Direction.Low, "Titration 8,0 %, refractometer 10,0 %: they do not agree.")]
    public async Task Flag_Disagreement_NamesBothMethods(TestDatabase database, Direction direction, string expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var numbers = Numbers((NumberNames.Refractometer, 10), (NumberNames.Titration, 8));

        Assert.Equal(expected, (await SayAsync(shop, "de-DE")).Flag(DisagreementRule.RuleCode, "", Verdict.Warning, direction, numbers));
    }

    [Theory]
    [EachDatabase(Verdict.Warning, UnitSystem.Metric, "Only 20.0 L stand above the intake of the pump; 44.0 L are on their way while it runs.")]
    [EachDatabase(Verdict.Warning, UnitSystem.UsCustomary, "Only 5.28 gal stand above the intake of the pump; 11.6 gal are on their way while it runs.")]
    [EachDatabase(Verdict.Action, UnitSystem.Metric, "Level 75 mm: the intake of the pump is bare.")]
    public async Task Flag_RunDry_NamesTheVolumes(TestDatabase database, Verdict severity, UnitSystem units, string expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var numbers = Numbers((NumberNames.Value, 75), (NumberNames.UsableLitres, 20), (NumberNames.NeededLitres, 44));
        var say = await SayAsync(shop, "en-GB", units);

        Assert.Equal(expected, say.Flag(RunDryRule.RuleCode, ParameterCodes.Level, severity, Direction.Low, numbers));
        Assert.StartsWith("Clears when the sump holds", say.FlagClears(RunDryRule.RuleCode, ParameterCodes.Level, Direction.Low, numbers), StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task Flag_RunDryByAGuess_SaysThatItIsOne(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var numbers = Numbers((NumberNames.Value, 100), (NumberNames.UsableLitres, 20), (NumberNames.NeededLitres, 44), (NumberNames.NeededIsGuessed, 1));

        Assert.Equal(
            "Only 20.0 L stand above the intake of the pump; about 44.0 L are assumed to be on their way while it runs.",
            (await SayAsync(shop, "en-GB")).Flag(RunDryRule.RuleCode, ParameterCodes.Level, Verdict.Warning, Direction.Low, numbers));
    }

    [Theory, EachDatabase]
    public async Task Flag_Microbial_ClaimsNoCount(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop, "en-GB");

        Assert.Equal(
            "pH 8.6, where it usually is 9.0, at a steady concentration, with the odour sour.",
            say.Flag(MicrobialRule.RuleCode, ParameterCodes.Ph, Verdict.Warning, Direction.Low, Numbers((NumberNames.Value, 8.6m), (NumberNames.Usual, 9), (NumberNames.Odour, 2), (NumberNames.Steady, 1))));
        Assert.Equal(
            "pH 8.6, where it usually is 9.0, with the odour sour.",
            say.Flag(MicrobialRule.RuleCode, ParameterCodes.Ph, Verdict.Warning, Direction.Low, Numbers((NumberNames.Value, 8.6m), (NumberNames.Usual, 9), (NumberNames.Odour, 2))));
        Assert.Equal(
            "Bacteria 3.5 log10 CFU/mL, 2.5 log10 CFU/mL on the slide before.",
            say.Flag(MicrobialRule.RuleCode, ParameterCodes.Bacteria, Verdict.Warning, Direction.High, Numbers((NumberNames.Value, 3.5m), (NumberNames.Previous, 2.5m))));
    }

    [Theory]
    [EachDatabase(Direction.High, "In 7.0 days the sump gained 30.8 L of water that nobody wrote down, give or take 9.1 L.")]
    [EachDatabase(Direction.Low, "In 7.0 days the sump gained 5.0 L of concentrate that nobody wrote down.")]
    [EachDatabase(Direction.None, "In 7.0 days the sump gained 30.8 L of mix that nobody wrote down, give or take 9.1 L.")]
    public async Task Flag_Balance_NamesWhatWasGained(TestDatabase database, Direction direction, string expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var numbers = Numbers((NumberNames.Days, 7), (NumberNames.GainedLitres, 30.8m), (NumberNames.GainUncertainty, 9.1m), (NumberNames.GainedConcentrate, 5));

        Assert.StartsWith(expected, (await SayAsync(shop, "en-GB")).Flag(BalanceRule.RuleCode, "", Verdict.Warning, direction, numbers), StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task Flag_BalanceWithWaterInThePlaceOfMix_NamesBoth(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var numbers = Numbers((NumberNames.Days, 7), (NumberNames.GainedLitres, 115.4m), (NumberNames.GainUncertainty, 12.1m), (NumberNames.GainedConcentrate, 0), (NumberNames.LostMix, 115.4m));

        Assert.Equal(
            "In 7.0 days 115.4 L of water came in that nobody wrote down, give or take 12.1 L, while 115.4 L of mix went, also without a record. A strength that was read too low looks the same.",
            (await SayAsync(shop, "en-GB")).Flag(BalanceRule.RuleCode, "", Verdict.Warning, Direction.High, numbers));
    }

    private static Dictionary<string, decimal> Numbers(params (string Name, decimal Value)[] numbers) => numbers.ToDictionary(n => n.Name, n => n.Value);

    private static async Task<Sentences> SayAsync(ShopFixture shop, string culture, UnitSystem units = UnitSystem.Metric)
    {
        var setup = await shop.SetupAsync();
        return new Sentences(new ShopFormat(CultureInfo.GetCultureInfo(culture), units, setup.Calendar), setup);
    }
}
