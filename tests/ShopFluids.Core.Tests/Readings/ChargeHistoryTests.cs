using ShopFluids.Core.Record.Replay;
using ShopFluids.Rules;
using ShopFluids.Rules.SuddenChange;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Readings;

/// <summary>The charge so far as the rules get it from the database.</summary>
public sealed class ChargeHistoryTests
{
    // The database gives 9.0 back as 9: two steps of the display are 0.2 for all that, and not 2.
    [Theory, EachDatabase]
    public async Task HandleAsync_RunOfWholeValues_IsJudgedByTheParametersDecimals(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        for (var week = 0; week < 10; week++)
        {
            await shop.StoreAsync(Some.Reading(brix: null, ph: 9.0m, levelMm: null, takenAt: shop.Now));
            shop.Clock.Advance(TimeSpan.FromDays(7));
        }

        var outcome = await shop.StoreAsync(Some.Reading(brix: null, ph: 9.4m, levelMm: null, takenAt: shop.Now));

        Assert.Contains(outcome.Raised, f => f.Rule == SuddenChangeRule.RuleCode && f.Parameter == ParameterCodes.Ph);
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(TestContext.Current.CancellationToken)).Differences);
    }

    // 400 other measurements in a month: what was measured before them is still seen, by the database and by the record.
    [Theory, EachDatabase]
    public async Task HandleAsync_ManyValuesSinceTheLast_LooksBackByDays(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        for (var day = 0; day < 10; day++)
        {
            await shop.StoreAsync(Some.Reading(brix: null, ph: day % 2 == 0 ? 9.0m : 9.1m, levelMm: null, takenAt: shop.Now));
            shop.Clock.Advance(TimeSpan.FromDays(1));
        }

        for (var i = 0; i < 200; i++)
        {
            await shop.StoreAsync(Some.Reading(ph: null, takenAt: shop.Now));
            shop.Clock.Advance(TimeSpan.FromHours(3));
        }

        var outcome = await shop.StoreAsync(Some.Reading(brix: null, ph: 9.5m, levelMm: null, takenAt: shop.Now));

        Assert.Contains(outcome.Raised, f => f.Rule == SuddenChangeRule.RuleCode && f.Parameter == ParameterCodes.Ph);
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(TestContext.Current.CancellationToken)).Differences);
    }
}
