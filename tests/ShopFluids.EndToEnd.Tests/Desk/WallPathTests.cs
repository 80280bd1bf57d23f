using Microsoft.Playwright;
using ShopFluids.Core.Displays;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Desk;

/// <summary>A screen on the wall goes on by itself: through the death of the server, its return, and the end of its link.</summary>
public sealed class WallPathTests(Chromium chromium)
{
    [Fact]
    public async Task Wall_ServerGoesAndComesBack_SaysThatItIsOldAndThenIsLiveAgain()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        var secret = "";
        await using var shop = await SmallShop.OpenAsync(database, async s => secret = await DisplayAsync(s));
        await using var screen = await Visit.OpenAsync(chromium, shop.Server.Address);
        await screen.Page.Clock.InstallAsync();
        await screen.Page.GotoAsync($"/board/wall/open?display={secret}");
        await Assertions.Expect(screen.Page.Locator(".wrow .tg")).ToContainTextAsync(Some.SumpTag);
        await Assertions.Expect(screen.Page.Locator("#stale")).ToBeHiddenAsync();

        shop.Server.Kill();
        await TurnAsync(screen.Page, 6);
        await Assertions.Expect(screen.Page.Locator("#stale")).ToBeVisibleAsync();
        await Assertions.Expect(screen.Page.Locator("#stale")).ToContainTextAsync("Not live since");
        await Assertions.Expect(screen.Page.Locator(".wrow .tg")).ToContainTextAsync(Some.SumpTag);

        await shop.RestartAsync();
        await TurnAsync(screen.Page, 2);
        await Assertions.Expect(screen.Page.Locator("#stale")).ToBeHiddenAsync();
    }

    [Fact]
    public async Task Wall_LinkIsRevoked_ClearsTheScreen()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        var secret = "";
        await using var shop = await SmallShop.OpenAsync(database, async s => secret = await DisplayAsync(s));
        await using var screen = await Visit.OpenAsync(chromium, shop.Server.Address);
        await screen.Page.Clock.InstallAsync();
        await screen.Page.GotoAsync($"/board/wall/open?display={secret}");
        await Assertions.Expect(screen.Page.Locator(".wrow")).ToHaveCountAsync(1);

        await using (var desk = ShopFixture.Empty(database))
        {
            var display = Assert.Single(await desk.Get<DisplaysQuery>().AllAsync(TestContext.Current.CancellationToken));
            (await desk.Get<SetUpDisplaysHandler>().HandleAsync(new RevokeDisplay(display.Id), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        }

        await TurnAsync(screen.Page, 1);
        await Assertions.Expect(screen.Page.Locator("h1")).ToHaveTextAsync(Texts.Wall_Revoked);
        await Assertions.Expect(screen.Page.Locator(".wrow")).ToHaveCountAsync(0);
    }

    private static async Task<string> DisplayAsync(ShopFixture shop)
    {
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        return (await shop.Get<SetUpDisplaysHandler>().HandleAsync(new AddDisplay(Some.Id(), "Hall", "shop", null), Some.Supervisor, default)).Done().Secret;
    }

    // A turn each time that the page's own clock has struck, with the answer of the server in between.
    private static async Task TurnAsync(IPage page, int times)
    {
        for (var n = 0; n < times; n++)
        {
            await page.Clock.RunForAsync(15_100);
            await Task.Delay(300);
        }
    }
}
