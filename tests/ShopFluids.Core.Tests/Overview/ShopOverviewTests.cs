using ShopFluids.Core.Board;
using ShopFluids.Core.Overview;
using ShopFluids.Core.Setup;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Overview;

public sealed class ShopOverviewTests
{
    [Theory, EachDatabase]
    public async Task RunAsync_Sumps_StandByVerdictThenByTheAgeOfTheirReading(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        foreach (var (tag, machine, order) in new[] { ("S-08", "M-08", 8), ("S-09", "M-09", 9), ("S-10", "M-10", 10) })
        {
            await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, tag, machine, shop.WaterId, order));
            (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, tag))).Done();
        }

        await shop.StoreAsync(Some.Reading(takenAt: Some.Start));
        await shop.StoreAsync(Some.Reading(sump: "S-08", takenAt: Some.Start.AddDays(-8)));
        await shop.StoreAsync(Some.Reading(sump: "S-09", brix: 4.0m));

        var area = Assert.Single((await RunAsync(shop)).Areas);

        Assert.Equal("Turning", area.Name);
        Assert.Equal(
            [("S-09", SumpState.Action, ReadingAge.Today), ("S-10", SumpState.NotMeasured, ReadingAge.Never), ("S-08", SumpState.InRange, ReadingAge.Month), ("S-07", SumpState.InRange, ReadingAge.Today)],
            area.Sumps.Select(s => (s.Tag, s.Standing.State, s.Age)));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_Movements_SplitIntoFillTopUpAndDrain(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var priced = Some.Id();
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(priced, shop.FluidId, "L-2") with { PricePerLitre = 4.5m }, Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        (await shop.AddAsync(Some.Addition(priced, water: 20, concentrate: 2, removed: 5, at: Some.Start.AddHours(-2)))).Done();
        (await shop.DrainAsync(Some.Start.AddHours(-1), litres: 160)).Done();

        var overview = await RunAsync(shop);

        var use = Assert.Single(overview.Use);
        Assert.Equal(("S-07", 150m, 22m, 160m, 5m), (use.Tag, use.FillLitres, use.TopUpLitres, use.DrainLitres, use.RemovedLitres));
        Assert.Equal((172m, 14m), (use.PutInLitres, use.ConcentrateLitres));
        Assert.Equal(use.Cost, overview.Months.Sum(m => m.Cost));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_Months_AreTwelveInARowAlsoWithoutUse(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var months = (await RunAsync(shop)).Months;

        Assert.Equal(12, months.Count);
        Assert.Equal((new DateOnly(2025, 4, 1), new DateOnly(2026, 3, 1)), (months[0].Month, months[^1].Month));
        Assert.Equal((12m, 12m, 0m, 138m), (months[^2].ConcentrateLitres, months[^2].FillLitres, months[^2].AddedLitres, months[^2].WaterLitres));
        Assert.All(months.Where(m => m.Month != new DateOnly(2026, 2, 1)), m => Assert.Equal(0, m.ConcentrateLitres));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_OlderThanNinetyDays_IsNotAmongWhereItGoes(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        shop.Clock.Advance(TimeSpan.FromDays(ShopOverviewQuery.UseDays - 9));

        Assert.Empty((await RunAsync(shop)).Use);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_EmptyShop_HasNoAreas(TestDatabase database)
    {
        await using var shop = ShopFixture.Empty(database);

        Assert.Empty((await RunAsync(shop)).Areas);
    }

    private static Task<ShopOverview> RunAsync(ShopFixture shop) =>
        new ShopOverviewQuery(new BoardQuery(shop.Get<Core.Database.ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<Core.Time.ShopClock>()), shop.Get<Core.Database.ShopDatabase>(), shop.Get<Core.Time.ShopClock>())
            .RunAsync(TestContext.Current.CancellationToken);
}
