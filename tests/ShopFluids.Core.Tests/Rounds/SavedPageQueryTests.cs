using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Rounds;

public sealed class SavedPageQueryTests
{
    private static Task<ShopFixture> OpenAsync(TestDatabase database) => ShopFixture.OpenAsync(database, also: s => s.AddSingleton<SavedPageQuery>());

    private static async Task<SavedPage> RunAsync(ShopFixture shop, Guid readingId) => (await shop.Get<SavedPageQuery>().RunAsync("S-07", readingId, default)).Done();

    private static async Task LotAsync(ShopFixture shop, string number, DateOnly expires, decimal litres) =>
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(Some.Id(), shop.FluidId, number, litres, expires), Some.Supervisor, default)).Done();

    [Theory, EachDatabase]
    public async Task LotFor_SeveralLots_IsTheFirstToExpireThatMayBeUsedAndHoldsEnough(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await LotAsync(shop, "EXPIRED", new DateOnly(2026, 3, 1), 100);
        await LotAsync(shop, "LAST-DAY", new DateOnly(2026, 3, 2), 3);
        await LotAsync(shop, "SOON", new DateOnly(2026, 5, 1), 100);
        var outcome = await shop.StoreAsync(Some.Reading());

        var page = await RunAsync(shop, outcome.ReadingId);

        Assert.Equal("LAST-DAY", page.LotFor(2)?.Number);
        Assert.Equal("SOON", page.LotFor(4)?.Number);
        Assert.Null(page.LotFor(500));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_ReadAgainSince_IsNotCurrent(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var first = await shop.StoreAsync(Some.Reading());
        Assert.True((await RunAsync(shop, first.ReadingId)).IsCurrent);

        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(takenAt: shop.Now));

        Assert.False((await RunAsync(shop, first.ReadingId)).IsCurrent);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_AdditionMade_IsListedWithItsLot(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.Reading(brix: 5, levelMm: 250));
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 30, concentrate: 5, readingId: outcome.ReadingId))).Done();

        var page = await RunAsync(shop, outcome.ReadingId);

        Assert.Equal(new SavedAddition(Some.Start, 30, 5, "L-1"), Assert.Single(page.Additions));
        Assert.Equal(125, page.LevelLitres);
        Assert.Equal(170, page.FullMarkLitres, 6);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_UnknownReading_SaysSo(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        Assert.IsType<ReadingNotFound>((await shop.Get<SavedPageQuery>().RunAsync("S-07", Some.Id(), TestContext.Current.CancellationToken)).Refused());
    }
}
