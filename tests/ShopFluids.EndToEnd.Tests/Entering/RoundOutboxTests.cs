using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Entering;

/// <summary>Passing sumps by and dip slides where there is no Wi-Fi: said once, kept on the tablet, stored once.</summary>
public sealed class RoundOutboxTests(Chromium chromium)
{
    private const string Second = "S-30";
    private const string Round = "/round";
    private const string Finish = "/round/finish";
    private const string Slides = $"/slides/{Some.SumpTag}";

    [Fact]
    public async Task Skip_WithoutConnection_WaitsIsShownOnTheRoundAndArrivesOnce()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await OpenAsync(database);
        await using var tablet = await TabletStore.OpenAsync(chromium, shop, Round, Finish);
        await tablet.Page.Context.SetOfflineAsync(true);

        // Out of the tablet's store comes the page of all that are left, narrowed to the sump that was asked for.
        await tablet.Page.GetByRole(AriaRole.Link, new() { Name = $"Skip {Some.SumpTag}" }).ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("h1")).ToHaveTextAsync($"Skip {Some.SumpTag}");
        await Assertions.Expect(tablet.Page.Locator("a[data-stop]:visible")).ToHaveCountAsync(1);
        await tablet.Page.GetByRole(AriaRole.Button, new() { Name = $"Skip {Some.SumpTag}" }).ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("#missing")).ToBeVisibleAsync();
        await PickAsync(tablet, SkipReason.MachineRunning);
        await tablet.Page.GetByRole(AriaRole.Button, new() { Name = $"Skip {Some.SumpTag}" }).ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("#kept")).ToContainTextAsync(Some.SumpTag);

        await tablet.Page.Locator("#kept a[href='/round']").ClickAsync();
        await tablet.Page.WaitForURLAsync("**/round");
        await Assertions.Expect(tablet.Page.Locator("#link")).ToContainTextAsync(Texts.Outbox_OneEntryWaits);
        await Assertions.Expect(tablet.Page.Locator($".next a[data-tag='{Some.SumpTag}'] [data-here]")).ToContainTextAsync("waits on this tablet");
        await Assertions.Expect(tablet.Page.Locator($"a[data-tag='{Second}'] [data-here]")).ToHaveCountAsync(0);
        Assert.Empty(await SkippedAsync(shop));

        await tablet.Page.Context.SetOfflineAsync(false);

        await TabletStore.EventuallyAsync(async () => await TabletStore.WaitingAsync(tablet) == 0);
        Assert.Equal([Some.SumpTag], await SkippedAsync(shop));
        await tablet.GoAsync(Round);
        await Assertions.Expect(tablet.Page.Locator("b[data-here]")).ToHaveCountAsync(0);
        await Assertions.Expect(tablet.Page.Locator(".next .tag1")).ToHaveTextAsync(Second);
        Assert.Equal(0, (await shop.VerifyAsync()).ExitCode);
    }

    // The server has it, and the tablet never hears so: it sends it again, after another person has said another thing of the same sump.
    [Fact]
    public async Task Finish_AnswerIsLost_StandsOnceAtEachSump()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await OpenAsync(database);
        await using var tablet = await TabletStore.OpenAsync(chromium, shop, Round, Finish);
        var lost = 0;
        await tablet.Page.Context.RouteAsync(url => url.EndsWith("/round/skip", StringComparison.Ordinal), async route =>
        {
            if (lost++ == 0)
            {
                await route.FetchAsync();
                await route.AbortAsync();
                return;
            }

            await route.ContinueAsync();
        });
        await tablet.GoAsync(Finish);
        await PickAsync(tablet, SkipReason.Other);
        await tablet.Page.Locator("#skip-words").FillAsync("Shift ended");
        await tablet.Page.Locator("footer button").ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("#kept")).ToBeVisibleAsync();
        Assert.Equal([Some.SumpTag, Second], await SkippedAsync(shop));
        await using (var other = await TabletStore.OpenAsync(chromium, shop, Round))
        {
            await other.GoAsync($"/round/skip?sump={Second}");
            await PickAsync(other, SkipReason.CouldNotReach);
            await other.Page.Locator("footer button").ClickAsync();
            await other.Page.WaitForURLAsync("**/round");
        }

        await tablet.GoAsync(Round);

        await TabletStore.EventuallyAsync(async () => await TabletStore.WaitingAsync(tablet) == 0);
        var stops = (await shop.Api.GetAsync("/api/v1/round")).GetProperty("skipped").EnumerateArray().ToDictionary(s => s.GetProperty("sump").GetString() ?? "", s => s.GetProperty("skip").GetProperty("reason").GetString());
        Assert.Equal(("other", "couldNotReach"), (stops[Some.SumpTag], stops[Second]));
        Assert.Equal(3, await StoredAsync(database));
    }

    // As after storing: nobody walks back to the round to learn where to go next.
    [Fact]
    public async Task Save_OutOfReach_LeadsToTheNextSumpThatIsStillToBeRead()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await OpenAsync(database);
        await using var tablet = await TabletStore.OpenAsync(chromium, shop, Round, $"/enter/{Some.SumpTag}", $"/enter/{Second}");
        await tablet.Page.Context.SetOfflineAsync(true);
        await tablet.Page.GotoAsync($"/enter/{Some.SumpTag}");
        await SavePhAsync(tablet.Page);

        await Assertions.Expect(tablet.Page.Locator("#kept-next")).ToContainTextAsync(Second);
        await tablet.Page.Locator("#kept-next").ClickAsync();
        await tablet.Page.WaitForURLAsync($"**/enter/{Second}");
        await SavePhAsync(tablet.Page);

        // Both wait on the tablet: none is left.
        await Assertions.Expect(tablet.Page.Locator("#kept-next")).ToBeHiddenAsync();
    }

    // What was read and waits is not left, and nobody passed it by.
    [Fact]
    public async Task Finish_SumpWasReadOutOfReach_PassesOnlyTheOthersBy()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await OpenAsync(database);
        await using var tablet = await TabletStore.OpenAsync(chromium, shop, Round, Finish, $"/enter/{Some.SumpTag}");
        await tablet.Page.Context.SetOfflineAsync(true);
        await tablet.Page.GotoAsync($"/enter/{Some.SumpTag}");
        await SavePhAsync(tablet.Page);

        await tablet.Page.GotoAsync(Finish);
        await Assertions.Expect(tablet.Page.Locator($"a[data-tag='{Some.SumpTag}']")).ToBeHiddenAsync();
        await Assertions.Expect(tablet.Page.Locator($"a[data-tag='{Second}']")).ToBeVisibleAsync();
        await Assertions.Expect(tablet.Page.Locator("#link")).ToBeVisibleAsync();
        await PickAsync(tablet, SkipReason.CouldNotReach);
        await tablet.Page.Locator("footer button").ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("#kept")).ToBeVisibleAsync();
        await tablet.Page.Context.SetOfflineAsync(false);

        await TabletStore.EventuallyAsync(async () => await TabletStore.WaitingAsync(tablet) == 0);
        Assert.Equal([Second], await SkippedAsync(shop));
    }

    // It says what the shop makes of what was sent, without anybody asking.
    [Fact]
    public async Task Round_WhatWaitedWasSent_IsDrawnAnew()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await OpenAsync(database);
        await using var tablet = await TabletStore.OpenAsync(chromium, shop, Round, $"/enter/{Some.SumpTag}");
        await tablet.Page.Context.SetOfflineAsync(true);
        await tablet.Page.GotoAsync($"/enter/{Some.SumpTag}");
        await SavePhAsync(tablet.Page);
        await tablet.Page.GotoAsync(Round);
        await Assertions.Expect(tablet.Page.Locator($"a[data-tag='{Some.SumpTag}'] [data-here]")).ToBeVisibleAsync();
        await tablet.Page.EvaluateAsync("() => { document.querySelector('main').dataset.before = ''; }");

        await tablet.Page.Context.SetOfflineAsync(false);

        await Assertions.Expect(tablet.Page.Locator("main:not([data-before])")).ToBeVisibleAsync();
        await Assertions.Expect(tablet.Page.Locator("a [data-here]")).ToHaveCountAsync(0);
        // What the tablet keeps of the sump is renewed, too.
        await tablet.Page.Context.SetOfflineAsync(true);
        await tablet.Page.GotoAsync($"/enter/{Some.SumpTag}");
        await Assertions.Expect(tablet.Page.Locator("#value-ph-last")).ToContainTextAsync("9.0");
    }

    [Fact]
    public async Task Skip_RefusedWhenItCameLate_CanBePutRightOrThrownAway()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await OpenAsync(database);
        await using var tablet = await TabletStore.OpenAsync(chromium, shop, Round, Finish);
        await tablet.GoAsync($"/round/skip?sump={Second}");
        await tablet.Page.Context.SetOfflineAsync(true);
        await PickAsync(tablet, SkipReason.MachineRunning);

        // What no page of ours would send: the sump is of another name by then.
        await tablet.Page.EvaluateAsync("() => { document.querySelector('[name=sump]').value = 'S-99'; }");
        await tablet.Page.Locator("footer button").ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("#kept")).ToBeVisibleAsync();
        await tablet.Page.Context.SetOfflineAsync(false);

        var discard = tablet.Page.Locator("#refused button");
        await Assertions.Expect(tablet.Page.Locator("#refused a")).ToContainTextAsync("S-99");
        await Assertions.Expect(tablet.Page.Locator("#refused small")).ToHaveTextAsync(Texts.Entry_SumpUnknownText);
        await discard.ClickAsync();
        await Assertions.Expect(discard).ToHaveTextAsync(Texts.Outbox_DiscardSure);
        Assert.Equal(1, await TabletStore.WaitingAsync(tablet));
        await discard.ClickAsync();

        await Assertions.Expect(tablet.Page.Locator("#refused")).ToBeHiddenAsync();
        Assert.Equal(0, await TabletStore.WaitingAsync(tablet));
        Assert.Equal(0, await StoredAsync(database));
    }

    [Fact]
    public async Task Skip_WithoutScript_IsAPlainForm()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await OpenAsync(database);
        await using var visit = await Visit.OpenAsync(chromium, shop.Server.Address, hasScript: false);
        await SignIn.AsAsync(visit, "op", SmallShop.Password);
        await visit.GoAsync(Finish);

        await visit.Page.Locator("footer button").ClickAsync();
        await visit.Page.Locator("#reason-fault").WaitForAsync();
        await PickAsync(visit, SkipReason.CouldNotReach);
        await visit.Page.Locator("footer button").ClickAsync();
        await visit.Page.WaitForURLAsync("**/round");

        Assert.Equal([Some.SumpTag, Second], await SkippedAsync(shop));
    }

    [Fact]
    public async Task Slide_StartedWithoutConnection_IsStartedOnceAtTheMomentOfTheDip()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await OpenAsync(database);
        await using var tablet = await TabletStore.OpenAsync(chromium, shop, Round, Slides);
        await tablet.Page.Context.SetOfflineAsync(true);
        await tablet.Page.GotoAsync(Slides);
        await tablet.Page.Locator("footer button").ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("#kept")).ToContainTextAsync(Some.SumpTag);
        Assert.Equal(0, await OpenSlidesAsync(shop));

        await tablet.Page.Context.SetOfflineAsync(false);

        await TabletStore.EventuallyAsync(async () => await TabletStore.WaitingAsync(tablet) == 0);
        Assert.Equal(1, await OpenSlidesAsync(shop));
        await tablet.GoAsync(Slides);
        await Assertions.Expect(tablet.Page.Locator("form[action$='/read']")).ToBeHiddenAsync();
    }

    private static Task<SmallShop> OpenAsync(TestDatabase database) => SmallShop.OpenAsync(database, async shop =>
    {
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, Second, "M-30", walkOrder: 99));
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, Second))).Done();
        await shop.StepAsync(Some.Step(TaskKind.Test, Second));
    });

    private static async Task SavePhAsync(IPage page)
    {
        await page.WaitForFunctionAsync("() => 'ready' in document.body.dataset");
        await page.Locator("input[name='value-ph']").FillAsync("9.0");
        await page.GetByRole(AriaRole.Button, new() { Name = Texts.Entry_Save, Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator("#kept")).ToBeVisibleAsync();
    }

    private static Task PickAsync(Visit tablet, SkipReason reason) => tablet.Page.Locator($"#reason-{(int)reason}").CheckAsync(new() { Force = true });

    private static async Task<List<string?>> SkippedAsync(SmallShop shop) =>
        [.. (await shop.Api.GetAsync("/api/v1/round")).GetProperty("skipped").EnumerateArray().Select(s => s.GetProperty("sump").GetString())];

    private static async Task<int> OpenSlidesAsync(SmallShop shop) => (await shop.Api.GetAsync("/api/v1/slides?state=open")).GetProperty("items").GetArrayLength();

    private static async Task<int> StoredAsync(TestDatabase database)
    {
        await using var db = database.Open();
        return await db.SkippedStops.CountAsync(TestContext.Current.CancellationToken);
    }
}
