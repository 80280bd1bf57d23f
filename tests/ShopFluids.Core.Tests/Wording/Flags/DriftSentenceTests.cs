using System.Globalization;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Drift;
using ShopFluids.Rules.Findings;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Wording.Flags;

public sealed class DriftSentenceTests
{
    [Theory]
    [EachDatabase(Direction.Low, 9.3, "pH is at 8.58 and has been falling by about 0.06 a week: at that rate it is down to the limit of 8.5 about 9 days after this reading.")]
    [EachDatabase(Direction.Low, 1.2, "pH is at 8.58 and has been falling by about 0.06 a week: at that rate it is down to the limit of 8.5 the day after this reading.")]
    [EachDatabase(Direction.Low, 0, "pH is at 8.58 and has been falling by about 0.06 a week: at that rate it is at the limit of 8.5 by now.")]
    [EachDatabase(Direction.High, 9.3, "pH is at 8.58 and has been rising by about 0.06 a week: at that rate it is up to the limit of 8.5 about 9 days after this reading.")]
    public async Task Flag_Drift_SaysRateLimitAndDays(TestDatabase database, Direction direction, double days, string expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var setup = await shop.SetupAsync();
        var say = new Sentences(new ShopFormat(CultureInfo.GetCultureInfo("en-GB"), UnitSystem.Metric, setup.Calendar), setup);
        var numbers = new Dictionary<string, decimal>
        {
            [NumberNames.Value] = 8.58m,
            [NumberNames.SlopePerWeek] = direction == Direction.Low ? -0.06m : 0.06m,
            [NumberNames.Limit] = 8.5m,
            [NumberNames.DaysUntil] = (decimal)days,
        };

        Assert.Equal(expected, say.Flag(DriftRule.RuleCode, ParameterCodes.Ph, Verdict.Warning, direction, numbers));
        Assert.StartsWith("Clears when later readings", say.FlagClears(DriftRule.RuleCode, ParameterCodes.Ph, direction, numbers), StringComparison.Ordinal);
    }
}
