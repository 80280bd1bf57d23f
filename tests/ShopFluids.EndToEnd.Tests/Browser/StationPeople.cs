using ShopFluids.Core.People;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Record;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Shop;

namespace ShopFluids.EndToEnd.Tests.Browser;

/// <summary>Two operators with PINs for a small shop, and the tablets that they share.</summary>
internal static class StationPeople
{
    public const string Anna = "Anna with a name that is rather long for a tile on a tablet";
    public const string Bert = "Bert";
    public const string AnnaPin = "204816";
    public const string BertPin = "518273";

    public static async Task AddAsync(ShopFixture shop)
    {
        foreach (var (signInName, name, pin) in new[] { ("anna", Anna, AnnaPin), ("bert", Bert, BertPin) })
        {
            var account = new MakeAccount(Some.Id(), signInName, name, SmallShop.Password, [Roles.Operator], "light");
            (await shop.Get<MakeAccountHandler>().HandleAsync(account, Actor.Program, default)).Done();
            (await shop.Get<SetPinHandler>().HandleAsync(new SetPin(account.Id, pin), Actor.Program, default)).Done();
        }
    }

    /// <summary>A tablet that has been made a station and shows its door.</summary>
    /// <param name="address">Another way to the server than its own address.</param>
    public static async Task<Tablet> OpenTabletAsync(Chromium chromium, SmallShop shop, Uri? address = null, bool hasScript = true, int width = 800, int height = 1280)
    {
        await using var fixture = shop.OpenBeside();
        var name = $"Bay {Some.Id():N}"[..20];
        // The code holds, whatever the server's clock shows.
        fixture.Clock.SetUtcNow(new DateTimeOffset(Some.Start.AddYears(50)));
        var offered = (await fixture.Get<SetUpStationsHandler>().HandleAsync(new AddStation(Some.Id(), name, "By the wash", "shop"), Actor.Program, default)).Done();
        var tablet = new Tablet(await Visit.OpenAsync(chromium, address ?? shop.Server.Address, width: width, height: height, hasScript: hasScript), name);
        await tablet.Page.GotoAsync($"/account/station/enrol?code={offered.Code}");
        await tablet.Page.Locator("button[type=submit]").ClickAsync();
        await tablet.ExpectDoorAsync();
        return tablet;
    }
}
