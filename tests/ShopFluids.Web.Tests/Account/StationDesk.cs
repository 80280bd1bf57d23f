using System.Net;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Account;

/// <summary>The served program with the small shop, tablets, and people with PINs.</summary>
internal sealed class StationDesk : IAsyncDisposable
{
    public const string Pin = "204816";
    public const string Door = "/account/station";

    private readonly ShopFixture _shop;

    private StationDesk(ShopFixture shop, TestHost host) => (_shop, Host) = (shop, host);

    public TestHost Host { get; }

    public static async Task<StationDesk> OpenAsync(TestDatabase database)
    {
        var shop = await ShopFixture.OpenAsync(database);
        return new StationDesk(shop, await TestHost.StartAsync(database));
    }

    public async Task<Guid> PersonAsync(string name, string role = Roles.Operator)
    {
        var id = await Host.AccountAsync(name, role);
        (await Host.Get<SetPinHandler>().HandleAsync(new SetPin(id, Pin), Actor.Program, default)).Done();
        return id;
    }

    public async Task<OfferedStation> OfferAsync(string name = "South", string theme = "dark") =>
        (await Host.Get<SetUpStationsHandler>().HandleAsync(new AddStation(Some.Id(), name, "By the wash", theme), Some.Supervisor, default)).Done();

    /// <summary>A tablet that has taken the code of a station.</summary>
    public async Task<TestBrowser> TabletAsync(OfferedStation offered)
    {
        var tablet = Host.Browser();
        var page = await tablet.OpenAsync($"{Door}/enrol?code={offered.Code}");
        Assert.Contains($"This tablet becomes the station {offered.Name}", page.Text, StringComparison.Ordinal);
        var tiles = await tablet.PostAsync($"{Door}/enrol", page, ("code", offered.Code));
        Assert.StartsWith(Door, tiles.Path, StringComparison.Ordinal);
        return tablet;
    }

    public static async Task<TestPage> LetInAsync(TestBrowser tablet, Guid person, string pin = Pin, string returnUrl = "/")
    {
        var page = await tablet.OpenAsync($"{Door}?stationPerson={person:D}&returnUrl={Uri.EscapeDataString(returnUrl)}");
        Assert.Equal(HttpStatusCode.OK, page.Status);
        return await tablet.PostAsync(Door, page, ("stationPerson", $"{person:D}"), ("stationPin", pin), ("returnUrl", returnUrl));
    }

    public async ValueTask DisposeAsync()
    {
        await Host.DisposeAsync();
        await _shop.DisposeAsync();
    }
}
