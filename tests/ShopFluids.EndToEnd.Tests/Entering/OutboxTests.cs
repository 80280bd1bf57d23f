using System.Diagnostics;
using System.Text.Json;
using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Entering;

/// <summary>What is typed is not lost and what is saved arrives once: without Wi-Fi, without a server, with the answer lost on its way.</summary>
public sealed class OutboxTests(Chromium chromium)
{
    private const string Enter = $"/enter/{Some.SumpTag}";
    // Every page of the round, and what they are made of; a font may come later.
    private const string KeepsAll = $$"""
        async () => {
            const files = performance.getEntriesByType('resource').map(r => r.name).filter(name => /\/(css|js)\//.test(name));
            return (await Promise.all(['{{Enter}}', '/round', ...files].map(f => caches.match(f)))).every(kept => kept);
        }
        """;

    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(Visit.PatienceMilliseconds);

    [Fact]
    public async Task Save_WithoutConnection_WaitsOnTheTabletAndArrivesOnceThereIsOne()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        await tablet.Page.Context.SetOfflineAsync(true);

        // The page comes out of the tablet's own store.
        await tablet.Page.GotoAsync(Enter);
        await SaveAndStayAsync(tablet, "8.1");
        await tablet.Page.GetByRole(AriaRole.Link, new() { Name = Texts.Round_Back }).Last.ClickAsync();
        await tablet.Page.WaitForURLAsync("**/round");
        await Assertions.Expect(tablet.Page.Locator("#link")).ToContainTextAsync(Texts.Outbox_OneWaits);
        Assert.Empty(await ReadingsAsync(shop));

        await tablet.Page.Context.SetOfflineAsync(false);

        await EventuallyAsync(async () => await WaitingAsync(tablet) == 0);
        await Assertions.Expect(tablet.Page.Locator("#link")).ToBeHiddenAsync();
        Assert.Equal(8.1m, Brix(Assert.Single(await ReadingsAsync(shop))));
    }

    [Fact]
    public async Task Save_TwoVisitsWithoutConnection_AreTwoReadings()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        await tablet.Page.Context.SetOfflineAsync(true);
        foreach (var brix in new[] { "8.1", "8.2" })
        {
            await tablet.Page.GotoAsync(Enter);
            await SaveAndStayAsync(tablet, brix);
        }

        await Assertions.Expect(tablet.Page.Locator("#link")).ToContainTextAsync("2 readings wait");
        await tablet.Page.Context.SetOfflineAsync(false);

        await EventuallyAsync(async () => (await ReadingsAsync(shop)).Select(Brix).Order().SequenceEqual([8.1m, 8.2m]));
    }

    [Fact]
    public async Task Save_ServerIsDown_ArrivesWhenItIsBack()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        await tablet.GoAsync(Enter);
        shop.Server.Kill();
        await SaveAndStayAsync(tablet, "8.3");

        await shop.RestartAsync();
        await tablet.Page.GotoAsync("/round");

        await EventuallyAsync(async () => (await ReadingsAsync(shop)).Count == 1);
        Assert.Equal(8.3m, Brix(Assert.Single(await ReadingsAsync(shop))));
        await Assertions.Expect(tablet.Page.Locator("#link")).ToBeHiddenAsync();
    }

    // The server has stored it, and the tablet never hears so: it sends it again, and the id tells that it is the same.
    [Fact]
    public async Task Save_AnswerIsLost_IsStoredOnce()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        await tablet.GoAsync(Enter);
        var lost = 0;
        await tablet.Page.Context.RouteAsync(url => url.EndsWith(Enter, StringComparison.Ordinal), async route =>
        {
            if (route.Request.Method == "POST" && lost++ == 0)
            {
                await route.FetchAsync();
                await route.AbortAsync();
                return;
            }

            await route.ContinueAsync();
        });
        await SaveAndStayAsync(tablet, "8.4");
        Assert.Single(await ReadingsAsync(shop));

        await tablet.Page.GotoAsync("/round");

        await EventuallyAsync(async () => await WaitingAsync(tablet) == 0);
        Assert.Single(await ReadingsAsync(shop));
    }

    [Fact]
    public async Task Type_PageIsLeft_ComesBackUntilItIsSavedOrThrownAway()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        await tablet.GoAsync(Enter);
        await ReadyAsync(tablet.Page);
        await new EntryPage(tablet).TypeAsync("8.5", "9.1", null, "after the weekend");

        await tablet.GoAsync("/round");
        await tablet.GoAsync(Enter);
        await Assertions.Expect(tablet.Page.Locator("#restored")).ToBeVisibleAsync();
        var entry = new EntryPage(tablet);
        Assert.Equal(("8.5", "9.1", "after the weekend"), (await entry.Concentration.InputValueAsync(), await entry.Ph.InputValueAsync(), await entry.Note.InputValueAsync()));

        await tablet.Page.GetByRole(AriaRole.Button, new() { Name = Texts.Outbox_Discard }).ClickAsync();
        await Assertions.Expect(entry.Concentration).ToHaveValueAsync("");
        await Assertions.Expect(tablet.Page.Locator("#restored")).ToBeHiddenAsync();

        await ReadyAsync(tablet.Page);
        await entry.TypeAsync("8.6", "9.0", "300");
        await entry.SaveForSureAsync();
        await tablet.GoAsync(Enter);
        await ReadyAsync(tablet.Page);
        await Assertions.Expect(tablet.Page.Locator("#restored")).ToBeHiddenAsync();
        tablet.ExpectNoFaults();
    }

    [Fact]
    public async Task Save_RefusedWhenItCameLate_IsShownWithWhatWasTypedAndCanBePutRight()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        await tablet.Page.Context.SetOfflineAsync(true);
        await tablet.Page.GotoAsync(Enter);
        await SaveAndStayAsync(tablet, "eighty");
        await tablet.Page.Context.SetOfflineAsync(false);

        // Why, is said where it is found and where it is put right.
        var refused = tablet.Page.Locator("#refused a");
        await Assertions.Expect(refused).ToContainTextAsync("eighty");
        // The page has more to say than why: nobody smelled anything.
        await Assertions.Expect(refused).Not.ToContainTextAsync(Texts.Caution_HydrogenSulphide);
        await refused.ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("#restored")).ToContainTextAsync("eighty");
        var entry = new EntryPage(tablet);
        await Assertions.Expect(entry.Concentration).ToHaveValueAsync("eighty");
        await entry.Concentration.FillAsync("8.0");
        await entry.SaveForSureAsync();

        Assert.Equal(8.0m, Brix(Assert.Single(await ReadingsAsync(shop))));
        Assert.Equal(0, await WaitingAsync(tablet));
    }

    [Fact]
    public async Task Save_SignInHasEnded_KeepsWhatWasTypedThroughTheSignIn()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        await tablet.GoAsync(Enter);
        await ReadyAsync(tablet.Page);
        var entry = new EntryPage(tablet);
        await entry.TypeAsync("8.7", "9.0", "300");
        await tablet.Page.Context.ClearCookiesAsync();

        await entry.SaveAsync();
        await tablet.Page.GetByLabel(Texts.Account_SignInName, new() { Exact = true }).FillAsync("op");
        await tablet.Page.GetByLabel(Texts.Account_Password, new() { Exact = true }).FillAsync(SmallShop.Password);
        await tablet.Page.GetByRole(AriaRole.Button, new() { Name = Texts.Account_SignIn, Exact = true }).ClickAsync();
        await Assertions.Expect(entry.Concentration).ToHaveValueAsync("8.7");
        await entry.SaveForSureAsync();

        Assert.Equal(8.7m, Brix(Assert.Single(await ReadingsAsync(shop))));
    }

    // Whatever stands before the server answers for it while it starts again.
    [Fact]
    public async Task Open_ServerRefuses_PageAndItsScriptsComeOutOfTheTablet()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var network = new FaultyNetwork(shop.Server.Address);
        await using var tablet = await OpenAsync(network.Address);
        await network.BecomeAsync(NetworkState.Refusing);

        await tablet.Page.GotoAsync(Enter);
        await SaveAndStayAsync(tablet, "8.1");
        await network.BecomeAsync(NetworkState.Fine);
        await tablet.Page.GotoAsync("/round");

        await EventuallyAsync(async () => await WaitingAsync(tablet) == 0);
        Assert.Equal(8.1m, Brix(Assert.Single(await ReadingsAsync(shop))));
    }

    [Fact]
    public async Task Save_PageIsGoneBeforeTheAnswer_IsNoDraftAnyMoreOnceItIsStored()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var network = new FaultyNetwork(shop.Server.Address);
        await using var tablet = await OpenAsync(network.Address);
        await tablet.GoAsync(Enter);
        await ReadyAsync(tablet.Page);
        await new EntryPage(tablet).TypeAsync("8.1", "9.0", "300");
        await network.BecomeAsync(NetworkState.AnswersHeld);
        await new EntryPage(tablet).Save.ClickAsync();
        await EventuallyAsync(() => Task.FromResult(network.Lost > 0));

        await tablet.Page.GotoAsync("/round");
        await network.BecomeAsync(NetworkState.Fine);
        await tablet.GoAsync("/round");

        await EventuallyAsync(async () => await WaitingAsync(tablet) == 0);
        Assert.Single(await ReadingsAsync(shop));
        await tablet.GoAsync(Enter);
        await ReadyAsync(tablet.Page);
        await Assertions.Expect(tablet.Page.Locator("#restored")).ToBeHiddenAsync();
    }

    [Fact]
    public async Task Save_RefusedBeforeAndSignInHasEnded_StaysUntilItIsPutRight()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        await tablet.Page.Context.SetOfflineAsync(true);
        await tablet.Page.GotoAsync(Enter);
        await SaveAndStayAsync(tablet, "eighty");
        await tablet.Page.Context.SetOfflineAsync(false);
        await tablet.Page.Locator("#refused a").ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("#restored")).ToBeVisibleAsync();
        await tablet.Page.Context.ClearCookiesAsync();
        await new EntryPage(tablet).SaveAsync();

        // Turned away at the door; signed in again elsewhere.
        await SignIn.AsAsync(tablet, "op", SmallShop.Password);
        await tablet.GoAsync("/round");
        await tablet.Page.Locator("#refused a").ClickAsync();
        await ReadyAsync(tablet.Page);
        var entry = new EntryPage(tablet);
        await Assertions.Expect(entry.Concentration).ToHaveValueAsync("eighty");

        // What is typed to put it right is kept, too.
        await entry.Concentration.FillAsync("8.1");
        await tablet.Page.ReloadAsync();
        await ReadyAsync(tablet.Page);
        await Assertions.Expect(entry.Concentration).ToHaveValueAsync("8.1");
        await tablet.GoAsync(Enter);
        await ReadyAsync(tablet.Page);
        await Assertions.Expect(entry.Concentration).ToHaveValueAsync("8.1");
        await entry.SaveForSureAsync();

        Assert.Equal(8.1m, Brix(Assert.Single(await ReadingsAsync(shop))));
        Assert.Equal(0, await WaitingAsync(tablet));
    }

    // Power off in the pocket: what was saved is on the disk of the tablet.
    [Fact]
    public async Task Save_BrowserIsKilled_ArrivesWhenItIsOpenedAgain()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        using var own = new OwnBrowser(chromium, shop.Server.Address);
        await own.OpenAsync();
        await SignInAsync(own.Page);
        await own.Page.GotoAsync(Enter);
        await own.Page.Context.SetOfflineAsync(true);
        await SaveAndStayAsync(own.Page, "8.8");

        own.Kill();
        await own.OpenAsync();

        // Without its last cookies it asks who is there before it sends.
        await SignInAsync(own.Page);

        await EventuallyAsync(async () => (await ReadingsAsync(shop)).Count > 0);
        Assert.Equal(8.8m, Brix(Assert.Single(await ReadingsAsync(shop))));
    }

    /// <summary>A tablet that has been online once: the worker keeps the round and its entry page.</summary>
    private Task<Visit> OpenAsync(SmallShop shop) => OpenAsync(shop.Server.Address);

    private async Task<Visit> OpenAsync(Uri address)
    {
        var tablet = await Visit.OpenAsync(chromium, address);
        await SignIn.AsAsync(tablet, "op", SmallShop.Password);
        await tablet.GoAsync("/round?all=1");
        await EventuallyAsync(() => tablet.Page.EvaluateAsync<bool>(KeepsAll));
        await tablet.GoAsync("/round");
        return tablet;
    }

    private static async Task SignInAsync(IPage page)
    {
        await page.GotoAsync("/account/sign-in");
        await page.GetByLabel(Texts.Account_SignInName, new() { Exact = true }).FillAsync("op");
        await page.GetByLabel(Texts.Account_Password, new() { Exact = true }).FillAsync(SmallShop.Password);
        await page.GetByRole(AriaRole.Button, new() { Name = Texts.Account_SignIn, Exact = true }).ClickAsync();
        await page.WaitForURLAsync("**/round");
    }

    private static Task SaveAndStayAsync(Visit tablet, string brix) => SaveAndStayAsync(tablet.Page, brix);

    private static async Task SaveAndStayAsync(IPage page, string brix)
    {
        await ReadyAsync(page);
        await page.Locator("input[name='value-concentration']").FillAsync(brix);
        await page.Locator("input[name='value-ph']").FillAsync("9.0");
        await page.Locator("input[name='value-level']").FillAsync("300");
        await page.GetByRole(AriaRole.Button, new() { Name = Texts.Entry_Save, Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator("#kept")).ToBeVisibleAsync();
    }

    private static async Task ReadyAsync(IPage page) => await page.WaitForFunctionAsync("() => 'ready' in document.body.dataset");

    private static Task<int> WaitingAsync(Visit tablet) => TabletStore.WaitingAsync(tablet);

    private static Task<List<JsonElement>> ReadingsAsync(SmallShop shop) => shop.Api.AllAsync($"/api/v1/sumps/{Some.SumpTag}/readings?limit=200");

    private static decimal Brix(JsonElement reading) =>
        reading.GetProperty("measurements").EnumerateArray().Single(m => m.GetProperty("parameter").GetString() == "concentration").GetProperty("rawValue").GetDecimal();

    private static async Task EventuallyAsync(Func<Task<bool>> isSo)
    {
        var waited = Stopwatch.StartNew();
        while (!await isSo())
        {
            Assert.True(waited.Elapsed < Patience, "It did not come about in time.");
            await Task.Delay(100);
        }
    }
}
