using ShopFluids.Core.Setup;
using ShopFluids.Core.Stores;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Stores;

public sealed class StoresQueryTests
{
    [Theory, EachDatabase]
    public async Task RunAsync_LotsOfAFluid_StandInTheOrderOfTheirUse(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await LotAsync(shop, "L-late", new(2028, 1, 1));
        await LotAsync(shop, "L-soon", new(2026, 4, 1));
        var apart = await LotAsync(shop, "L-apart", new(2026, 3, 20));
        (await shop.Get<QuarantineLotHandler>().HandleAsync(new(apart, "Leaking drum"), Some.Supervisor, TestContext.Current.CancellationToken)).Done();

        var stock = Assert.Single((await RunAsync(shop)).Fluids);

        Assert.Equal("L-soon", stock.Lots[0].Lot.Number);
        Assert.Equal("L-apart", stock.Lots[^1].Lot.Number);
        Assert.Equal(188 + 200 + 200, stock.UsableLitres);
        Assert.Equal(new DateOnly(2026, 2, 20), stock.Lots.Single(l => l.Lot.Number == "L-1").OpenedOn);
        Assert.Null(stock.Lots[0].OpenedOn);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_Additions_GiveRateReorderPointAndLastDay(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 40, concentrate: 6))).Done();

        var now = await RunAsync(shop);

        // 6 L in the last 30 days: 0.2 L a day, 2.8 L in two weeks; the fill does not count.
        var stock = Assert.Single(now.Fluids);
        Assert.Equal(0.2m, stock.UsedPerDayLitres);
        Assert.Equal(2.8m, stock.ReorderAtLitres);
        Assert.False(stock.IsLow);
        Assert.Equal(182, stock.UsableLitres);

        // It would last for 910 days, but keeps only until its expiry.
        Assert.Equal(stock.Lots[0].UseUntil, stock.LastsUntil(now.Today));
        Assert.True(stock.Lots[0].UseUntil < now.Today.AddDays(910));
        await LotAsync(shop, "L-new", new(2030, 1, 1));
        stock = Assert.Single((await RunAsync(shop)).Fluids);
        Assert.Null(stock.LastsUntil(now.Today));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_LessThanTwoWeeksUse_IsLow(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 40, concentrate: 6))).Done();
        (await shop.Get<AdjustLotHandler>().HandleAsync(new(Some.Id(), shop.LotId, AdjustmentKind.Counted, 2.8m, "Dipstick"), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        Assert.False((await RunAsync(shop)).Fluids[0].IsLow);

        (await shop.Get<AdjustLotHandler>().HandleAsync(new(Some.Id(), shop.LotId, AdjustmentKind.Counted, 2.7m, "Dipstick"), Some.Supervisor, TestContext.Current.CancellationToken)).Done();

        Assert.True((await RunAsync(shop)).Fluids[0].IsLow);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_MovementsOfTwoMonths_AddUpByMonthWithTheirCost(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var priced = Some.Id();
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(priced, shop.FluidId, "L-2") with { PricePerLitre = 4.5m }, Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        (await shop.AddAsync(Some.Addition(priced, water: 20, concentrate: 2, removed: 5))).Done();

        var months = (await RunAsync(shop)).Months;

        Assert.Equal([new(2026, 3, 1), new DateOnly(2026, 2, 1)], months.Select(m => m.Month));
        Assert.Equal((0m, 2m, 20m, 5m, 9m, 0m), (months[0].FillLitres, months[0].AddedLitres, months[0].WaterLitres, months[0].RemovedLitres, months[0].Cost, months[0].UnpricedLitres));
        Assert.Equal((12m, 0m, 138m, 0m), (months[1].FillLitres, months[1].AddedLitres, months[1].WaterLitres, months[1].RemovedLitres));
        var price = (await shop.Get<LotsQuery>().RunAsync(TestContext.Current.CancellationToken)).Single(l => l.Id == shop.LotId).PricePerLitre;
        Assert.Equal((12 * (price ?? 0), price is null ? 12m : 0m), (months[1].Cost, months[1].UnpricedLitres));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_EmptyShop_HasNoFluids(TestDatabase database)
    {
        await using var shop = ShopFixture.Empty(database);

        var now = await RunAsync(shop);

        Assert.Empty(now.Fluids);
        Assert.Empty(now.Months);
    }

    private static Task<StoresNow> RunAsync(ShopFixture shop) => shop.Get<StoresQuery>().RunAsync(TestContext.Current.CancellationToken);

    private static async Task<Guid> LotAsync(ShopFixture shop, string number, DateOnly expires)
    {
        var id = Some.Id();
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(id, shop.FluidId, number, expires: expires), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        return id;
    }
}
