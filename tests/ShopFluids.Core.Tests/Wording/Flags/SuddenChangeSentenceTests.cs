using System.Globalization;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.SuddenChange;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Wording.Flags;

public sealed class SuddenChangeSentenceTests
{
    [Theory, EachDatabase]
    public async Task Flag_NothingExplained_NamesBothValuesAndWhatIsUsual(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop, "en-GB");
        var numbers = Numbers(value: 8.4m, previous: 9.0m, expectedChange: 0, limit: 0.327m);

        Assert.Equal(
            "pH went from 9.0 to 8.4; a change of up to 0.33 would be nothing unusual here.",
            say.Flag(SuddenChangeRule.RuleCode, ParameterCodes.Ph, Verdict.Warning, Direction.Low, numbers));
        Assert.Equal(
            "Ends once the new value has been found on several days, or when a reading has gone back towards 9.0. Whether the new value is good or bad, the limits of the parameter say.",
            say.FlagClears(SuddenChangeRule.RuleCode, ParameterCodes.Ph, Direction.Low, numbers));
    }

    [Theory, EachDatabase]
    public async Task Flag_PartExplained_NamesWhatItShouldBe(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop, "de-DE");
        var numbers = Numbers(value: 6.1m, previous: 6.0m, expectedChange: -2.013m, limit: 0.5m);

        Assert.Equal(
            "Concentration went from 6,0 % to 6,1 %; by what was added and lost it should be 4,0 %, give or take 0,5 %.",
            say.Flag(SuddenChangeRule.RuleCode, ParameterCodes.Concentration, Verdict.Warning, Direction.High, numbers));
        Assert.Contains("gone back towards 4,0 %", say.FlagClears(SuddenChangeRule.RuleCode, ParameterCodes.Concentration, Direction.High, numbers), StringComparison.Ordinal);
    }

    // A fine instrument's second decimal is kept, and nothing is said of additions, which pH does not follow.
    [Theory, EachDatabase]
    public async Task Flag_FinePh_KeepsItsDecimals(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop, "en-GB");
        var numbers = Numbers(value: 8.4m, previous: 9.05m, expectedChange: 0, limit: 0.327m);

        Assert.Equal(
            "pH went from 9.05 to 8.4; a change of up to 0.33 would be nothing unusual here.",
            say.Flag(SuddenChangeRule.RuleCode, ParameterCodes.Ph, Verdict.Warning, Direction.Low, numbers));
        Assert.Contains("gone back towards 9.05.", say.FlagClears(SuddenChangeRule.RuleCode, ParameterCodes.Ph, Direction.Low, numbers), StringComparison.Ordinal);
    }

    private static Dictionary<string, decimal> Numbers(decimal value, decimal previous, decimal expectedChange, decimal limit) => new()
    {
        [NumberNames.Value] = value,
        [NumberNames.Previous] = previous,
        [NumberNames.ExpectedChange] = expectedChange,
        [NumberNames.ChangeLimit] = limit,
        [NumberNames.Changes] = 8,
    };

    private static async Task<Sentences> SayAsync(ShopFixture shop, string culture)
    {
        var setup = await shop.SetupAsync();
        return new Sentences(new ShopFormat(CultureInfo.GetCultureInfo(culture), UnitSystem.Metric, setup.Calendar), setup);
    }
}
