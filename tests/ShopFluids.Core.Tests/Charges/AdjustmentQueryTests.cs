using ShopFluids.Core.Charges;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Charges;

public sealed class AdjustmentQueryTests
{
    [Theory, EachDatabase]
    public async Task RunAsync_OpenAdjustment_GivesRecipeLotsAndItsReading(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.Reading(brix: 4.0m));

        var adjustment = await RunAsync(shop, outcome.Made[0].Id);

        Assert.NotNull(adjustment);
        Assert.Equal(("S-07", "Emulsion A", outcome.Recipe, outcome.ReadingId), (adjustment.SumpTag, adjustment.FluidName, adjustment.Recipe, adjustment.ReadingId));
        Assert.Equal("L-1", Assert.Single(adjustment.Lots).Number);
    }

    // The task of the first reading follows the recipe of the second, and what is poured belongs to that one.
    [Theory, EachDatabase]
    public async Task RunAsync_ReadAgainSince_BelongsToTheReadingOfTheRecipe(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var first = await shop.StoreAsync(Some.Reading(brix: 4.0m));
        shop.Clock.Advance(TimeSpan.FromHours(1));
        var second = await shop.StoreAsync(Some.Reading(brix: 4.4m, levelMm: 280, takenAt: shop.Now));
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(brix: null, levelMm: null, takenAt: shop.Now));

        var adjustment = await RunAsync(shop, first.Made[0].Id);

        Assert.NotNull(adjustment?.ReadingId);
        Assert.NotEqual(first.ReadingId, adjustment.ReadingId);
        Assert.NotEqual(first.Recipe, adjustment.Recipe);
        Assert.Equal(second.Recipe, adjustment.Recipe);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_AnsweredAlreadyOrUnknown_IsNull(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var task = (await shop.StoreAsync(Some.Reading(brix: 4.0m))).Made[0].Id;
        (await shop.AddAsync(Some.Addition(shop.LotId))).Done();

        Assert.Null(await RunAsync(shop, task));
        Assert.Null(await RunAsync(shop, Some.Id()));
    }

    private static Task<Adjustment?> RunAsync(ShopFixture shop, Guid taskId) => shop.Get<AdjustmentQuery>().RunAsync(taskId, TestContext.Current.CancellationToken);
}
