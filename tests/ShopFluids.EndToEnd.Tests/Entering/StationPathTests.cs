using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using ShopFluids.Core.Record;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Entering;

/// <summary>A shared tablet in the hands of several people: enrolled, opened by PIN, handed on, locked, expired, revoked.</summary>
public sealed class StationPathTests(Chromium chromium)
{
    private const string Enter = $"/enter/{Some.SumpTag}";
    private const string Slides = $"/slides/{Some.SumpTag}";
    private const string Anna = StationPeople.Anna;
    private const string Bert = StationPeople.Bert;
    private const string AnnaPin = StationPeople.AnnaPin;
    private const string BertPin = StationPeople.BertPin;
    private static readonly string Door = "**/account/station**";

    [Fact]
    public async Task Pin_TileAndDigits_LeadToAReadingThatNamesPersonAndStation()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database, StationPeople.AddAsync);
        await using var desk = await Visit.OpenAsync(chromium, shop.Server.Address, width: 1440, height: 900);
        await SignIn.AsAsync(desk, "sup", SmallShop.Password);
        var (name, link) = await Tablet.OfferAsync(desk);
        await using var tablet = new Tablet(await Visit.OpenAsync(chromium, shop.Server.Address), name);
        await tablet.Visit.GoAsync(link);
        await tablet.Page.GetByRole(AriaRole.Button, new() { Name = Texts.Station_Enrol }).ClickAsync();
        await tablet.ExpectDoorAsync();

        await tablet.LetInAsync(Anna, AnnaPin);
        await tablet.Visit.GoAsync(Enter);
        var entry = new EntryPage(tablet.Visit);
        await entry.TypeAsync("8.1", "9.0", "300");
        await entry.SaveForSureAsync();

        await using var db = database.Open();
        var act = await db.RecordEntries.SingleAsync(e => e.Code == ActCodes.ReadingStored, TestContext.Current.CancellationToken);
        Assert.Equal((Anna, name), (await db.Users.Where(p => p.Id == act.ActorId).Select(p => p.DisplayName).SingleAsync(TestContext.Current.CancellationToken), act.StationName));
        foreach (var shut in new[] { "/board", "/setup", "/setup/stations", "/account", $"/drain/{Some.SumpTag}" })
        {
            await tablet.Visit.GoAsync(shut);
            Assert.Contains("/account/not-allowed", tablet.Page.Url, StringComparison.Ordinal);
        }

        Assert.Equal(403, await tablet.Page.EvaluateAsync<int>("async () => (await fetch('/api/v1/sumps', { headers: { 'X-ShopFluids': '1' } })).status"));
        await desk.GoAsync("/setup/stations");
        await Assertions.Expect(desk.Page.Locator("tr", new() { HasText = name })).ToContainTextAsync(Texts.Setup_StationNoneUnsent);
        await Assertions.Expect(desk.Page.Locator("tr", new() { HasText = name })).ToContainTextAsync(Texts.Setup_StationClockRight);
        tablet.Visit.ExpectNoFaults();
    }

    [Fact]
    public async Task Idle_TypedButNotSaved_LocksAndKeepsItForItsPersonAlone()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database, StationPeople.AddAsync);
        await using var tablet = await OpenAsync(shop);
        await tablet.Page.Clock.InstallAsync();
        var entry = await AnnaTypesAsync(tablet, "8.2", null, null, "half done");

        await tablet.Page.Clock.FastForwardAsync("05:01");
        await tablet.Page.WaitForURLAsync(Door);
        await tablet.LetInAsync(Bert, BertPin);
        await ReadyAsync(tablet.Page);
        Assert.EndsWith(Enter, tablet.Page.Url, StringComparison.Ordinal);
        await Assertions.Expect(entry.Concentration).ToHaveValueAsync("");

        // One tap hands the tablet back.
        await tablet.Page.Locator("#switch button").ClickAsync();
        await tablet.Page.WaitForURLAsync(Door);
        await tablet.LetInAsync(Anna, AnnaPin);
        await Assertions.Expect(entry.Concentration).ToHaveValueAsync("8.2");
        await entry.TypeAsync(null, "9.0", "300");
        await entry.SaveForSureAsync();
        Assert.Equal([Anna], await ActorsAsync(database));
    }

    // Every form, not the entry alone: one types the litres, goes to pour, and comes back to a locked tablet.
    [Fact]
    public async Task Idle_WordsOfAnotherForm_AreThereAgainForTheirPersonAlone()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database, StationPeople.AddAsync);
        await using var tablet = await OpenAsync(shop);
        await tablet.LetInAsync(Anna, AnnaPin);
        await tablet.Visit.GoAsync(Slides);
        await tablet.Page.Locator("#incubation").SelectOptionAsync("Room");
        await tablet.Page.Locator("#dippedAt").FillAsync("2026-03-01T09:30");

        await tablet.Page.Locator("#switch button").ClickAsync();
        await tablet.Page.WaitForURLAsync(Door);
        await tablet.LetInAsync(Bert, BertPin);
        await tablet.Visit.GoAsync(Slides);
        await Assertions.Expect(tablet.Page.Locator("#dippedAt")).ToHaveValueAsync("");
        await tablet.Page.Locator("#switch button").ClickAsync();
        await tablet.Page.WaitForURLAsync(Door);
        await tablet.LetInAsync(Anna, AnnaPin);
        await tablet.Visit.GoAsync(Slides);

        await Assertions.Expect(tablet.Page.Locator("#dippedAt")).ToHaveValueAsync("2026-03-01T09:30");
        await Assertions.Expect(tablet.Page.Locator("#incubation")).ToHaveValueAsync("Room");
    }

    [Fact]
    public async Task Idle_WithoutTheServer_AsksWhoIsThereAndLosesNothing()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database, StationPeople.AddAsync);
        await using var tablet = await OpenAsync(shop);
        await tablet.Page.Clock.InstallAsync();
        var entry = await AnnaTypesAsync(tablet, "8.3", null, null);
        await tablet.Page.Context.SetOfflineAsync(true);

        await tablet.Page.Clock.FastForwardAsync("05:01");
        await Assertions.Expect(tablet.Page.Locator("#locked")).ToBeVisibleAsync();
        await Assertions.Expect(entry.Concentration).ToBeHiddenAsync();
        await tablet.Page.Locator("#unlock").ClickAsync();

        await Assertions.Expect(entry.Concentration).ToHaveValueAsync("8.3");
    }

    // Whoever comes by while the way to the server is back again must not go on as somebody else.
    [Fact]
    public async Task Unlock_ServerIsThereAgain_AsksForThePinAndLosesNothing()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database, StationPeople.AddAsync);
        await using var tablet = await OpenAsync(shop);
        var entry = await AnnaTypesAsync(tablet, "8.3", null, null);
        await tablet.Page.Context.SetOfflineAsync(true);
        await tablet.Page.Locator("#switch button").ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("#locked")).ToBeVisibleAsync();
        await tablet.Page.Context.SetOfflineAsync(false);

        await tablet.Page.Locator("#unlock").ClickAsync();

        await tablet.Page.WaitForURLAsync("**/account/station?**");
        await tablet.LetInAsync(Anna, AnnaPin);
        await tablet.Visit.GoAsync(Enter);
        await Assertions.Expect(entry.Concentration).ToHaveValueAsync("8.3");
    }

    [Fact]
    public async Task Save_PinSessionHasEnded_AsksForThePinAndKeepsTheText()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database, StationPeople.AddAsync);
        await using var tablet = await OpenAsync(shop);
        var entry = await AnnaTypesAsync(tablet, "8.4", "9.0", "300", "under the tray");
        await using (var ended = await tablet.Page.Context.APIRequest.PostAsync("/account/station/lock", new() { Headers = new Dictionary<string, string> { ["X-ShopFluids"] = "1" } }))
        {
            Assert.Equal(204, ended.Status);
        }

        await entry.SaveAsync();
        await tablet.Page.Locator("#pin-box").WaitForAsync();
        await tablet.TypePinAsync(AnnaPin);
        await Assertions.Expect(entry.Concentration).ToHaveValueAsync("8.4");
        await Assertions.Expect(entry.Note).ToHaveValueAsync("under the tray");
        await entry.SaveForSureAsync();

        Assert.Equal([Anna], await ActorsAsync(database));
    }

    [Fact]
    public async Task Revoke_WhileInUse_ShutsTheTabletAtTheNextPress()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database, StationPeople.AddAsync);
        await using var tablet = await OpenAsync(shop);
        await tablet.LetInAsync(Anna, AnnaPin);
        await using var desk = await Visit.OpenAsync(chromium, shop.Server.Address, width: 1440, height: 900);
        await SignIn.AsAsync(desk, "sup", SmallShop.Password);
        await desk.GoAsync("/setup/stations");
        await desk.Page.GetByRole(AriaRole.Button, new() { Name = $"{Texts.Setup_StationRevoke} {tablet.Name}" }).ClickAsync();
        await desk.Page.GetByRole(AriaRole.Group).GetByRole(AriaRole.Button, new() { Name = Texts.Setup_StationRevoke, Exact = true }).ClickAsync();
        await Assertions.Expect(desk.Page.Locator("tr", new() { HasText = tablet.Name })).ToContainTextAsync("Revoked");

        await tablet.Page.GotoAsync(Enter);

        await tablet.Page.WaitForURLAsync("**/account/sign-in**");
        await Assertions.Expect(tablet.Page.Locator(".notice")).ToContainTextAsync("no station any more");
        Assert.DoesNotContain(await tablet.Page.Context.CookiesAsync(), c => c.Name == "shopfluids-station");
    }

    [Fact]
    public async Task Pin_WithoutScript_IsAPlainForm()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database, StationPeople.AddAsync);
        await using var tablet = await OpenAsync(shop, hasScript: false);

        await tablet.Page.Locator(".tile", new() { HasText = Bert }).FocusAsync();
        await tablet.Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(tablet.Page.Locator("#pin-box")).ToBeFocusedAsync();
        await Assertions.Expect(tablet.Page.Locator("#pinpad")).ToBeHiddenAsync();
        await tablet.Page.Keyboard.TypeAsync(BertPin);
        await tablet.Page.Keyboard.PressAsync("Enter");
        await tablet.Page.WaitForURLAsync("**/round");
        await tablet.Page.Locator("#switch button").ClickAsync();

        await tablet.ExpectDoorAsync();
    }

    private Task<Tablet> OpenAsync(SmallShop shop, bool hasScript = true) => StationPeople.OpenTabletAsync(chromium, shop, hasScript: hasScript);

    private static async Task<List<string>> ActorsAsync(TestDatabase database)
    {
        await using var db = database.Open();
        return await (from entry in db.RecordEntries
                      join person in db.Users on entry.ActorId equals person.Id
                      where entry.Code == ActCodes.ReadingStored
                      orderby entry.Sequence
                      select person.DisplayName).ToListAsync();
    }

    private static async Task<EntryPage> AnnaTypesAsync(Tablet tablet, string concentration, string? ph, string? level, string? note = null)
    {
        await tablet.LetInAsync(Anna, AnnaPin);
        await tablet.Visit.GoAsync(Enter);
        await ReadyAsync(tablet.Page);
        var entry = new EntryPage(tablet.Visit);
        await entry.TypeAsync(concentration, ph, level, note);
        return entry;
    }

    private static async Task ReadyAsync(IPage page) => await page.WaitForFunctionAsync("() => 'ready' in document.body.dataset");
}
