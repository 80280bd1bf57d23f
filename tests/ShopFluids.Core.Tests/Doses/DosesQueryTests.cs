using ShopFluids.Core.Doses;
using ShopFluids.Core.Readings;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Doses;

public sealed class DosesQueryTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task OfSumpAsync_Dosed_TellsItsVolumeAndTheDosesOfTheChargeLatestFirst(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 300));
        await NoteAsync(shop, Some.Dose());
        await NoteAsync(shop, Some.Dose() with { Product = "Defoamer D-3", Kind = DoseKind.Defoamer, GivenAtUtc = Some.Start.AddDays(-1) });

        var page = (await shop.Get<DosesQuery>().OfSumpAsync("s-07", Token)).Done();

        Assert.Equal((Some.SumpTag, 150.0, Some.Start), (page.Place.Tag, page.VolumeLitres, page.NowUtc));
        Assert.Equal([("Biocide B-20", 1.2m), ("Defoamer D-3", 1.2m)], page.Doses.Select(d => (d.Product, d.Reached)));
        Assert.Equal(["Biocide B-20", "Defoamer D-3"], page.Products);
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_ChargeDrained_TellsNothingOfIt(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await NoteAsync(shop, Some.Dose());
        (await shop.DrainAsync(shop.Now)).Done();

        Assert.Equal(new NoOpenCharge(Some.SumpTag), (await shop.Get<DosesQuery>().OfSumpAsync(Some.SumpTag, Token)).Error);
        Assert.Equal(new SumpNotFound("S-99"), (await shop.Get<DosesQuery>().OfSumpAsync("S-99", Token)).Error);
        shop.Clock.Advance(TimeSpan.FromHours(1));
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, at: shop.Now))).Done();
        Assert.Empty((await shop.Get<DosesQuery>().OfSumpAsync(Some.SumpTag, Token)).Done().Doses);
    }

    private static async Task NoteAsync(ShopFixture shop, NoteDose command) => (await shop.Get<NoteDoseHandler>().HandleAsync(command, Some.Operator, isSupervisor: false, Token)).Done();
}
