using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Trail;
using ShopFluids.Core.Setup;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Record;

public sealed class RetentionTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task SaveSite_YearsOfItsOwn_AreKeptAndTheUsualOnesAreNot(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        Assert.Equal(new Retention(5, 40), Retention.Of((await shop.SetupAsync()).Site));

        (await SaveAsync(shop, new(10, 40))).Done();

        var site = (await shop.SetupAsync()).Site;
        Assert.Equal(new Retention(10, 40), Retention.Of(site));
        Assert.Equal((10, null), (site?.FluidKeepYears, site?.ExposureKeepYears));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory]
    [EachDatabase(0, 40, "fluidKeepYears", 0)]
    [EachDatabase(5, 101, "exposureKeepYears", 101)]
    public async Task SaveSite_NoYearsOrTooMany_NamesTheFieldAndTheRange(TestDatabase database, int fluids, int exposure, string field, int value)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        Assert.Equal(new FieldError(field, FieldProblem.OutOfRange, value, 1, 100), (await SaveAsync(shop, new(fluids, exposure))).Field());
    }

    [Theory, EachDatabase]
    public async Task Trail_AnyRecord_TellsSinceWhenThereIsSomethingToKeep(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        Assert.Null((await TrailAsync(shop)).FirstExposureUtc);
        foreach (var dose in new[] { Some.Dose() with { Kind = DoseKind.Defoamer, Product = "Defoamer D-3", GivenAtUtc = Some.Start.AddDays(-2) }, Some.Dose() })
        {
            (await shop.Get<NoteDoseHandler>().HandleAsync(dose, Some.Operator, isSupervisor: false, Token)).Done();
        }

        Assert.Equal(Some.Start, (await TrailAsync(shop)).FirstExposureUtc);
        Assert.Equal((await TrailAsync(shop)).Entries[^1].AtUtc, (await TrailAsync(shop)).FirstAtUtc);
    }

    // The leap day has none in the years that follow.
    [Theory]
    [InlineData("2026-11-26", 5, "2031-11-26")]
    [InlineData("2024-02-29", 5, "2029-02-28")]
    [InlineData("2024-02-29", 40, "2064-02-29")]
    public void Until_YearsOn_IsTheSameDay(string recorded, int years, string until) =>
        Assert.Equal(DateOnly.Parse(until, System.Globalization.CultureInfo.InvariantCulture), Retention.Until(DateOnly.Parse(recorded, System.Globalization.CultureInfo.InvariantCulture), years));

    private static async Task<Result<Saved>> SaveAsync(ShopFixture shop, Retention retention) =>
        await shop.Get<SaveSiteHandler>().HandleAsync(Some.Site() with { Id = shop.SiteId, Retention = retention }, Some.Supervisor, Token);

    private static Task<TrailPage> TrailAsync(ShopFixture shop) => shop.Get<TrailQuery>().RunAsync(new(), Token);
}
