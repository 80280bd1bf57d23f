using System.Net;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.People;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Shop;
using ShopFluids.Web.Shop.Entry;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

/// <summary>Who opens an entry page finds it drawn, also as the first after something made it another.</summary>
public sealed class EntryPagesAheadTests
{
    private const string Enter = "/enter/S-07";
    private const string Second = "S-30";
    private static readonly ShopLook Light = new("light", null, IsOperator: true, IsSupervisor: false, IsOnStation: false, BasePath: "");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Start_PeopleOfTheShop_FindTheirPagesDrawn()
    {
        await using var host = await ShopHost.OpenAsync();

        await ComesAsync(host, Light);
        Assert.Null(await FindAsync(host, Light with { Theme = "dark" }));
        // While a server starts it is not known yet where its files are: drawn too early, a page would name them without the mark of their content.
        Assert.Matches("/css/base\\.[a-z0-9]{10}\\.css", (await host.GetAsync(Enter)).Html);
    }

    [Fact]
    public async Task Get_RoundInAnotherLook_DrawsTheEntryPagesThatComeNext()
    {
        await using var host = await ShopHost.OpenAsync();
        await host.PostAsync("/account/preferences", new() { ["units"] = "UsCustomary", ["theme"] = "dark" }, from: "/account");
        var chosen = Light with { Theme = "dark", Units = UnitSystem.UsCustomary };
        Assert.Null(await FindAsync(host, chosen));

        await host.GetAsync("/round");

        await ComesAsync(host, chosen);
    }

    [Fact]
    public async Task Post_Reading_ThePageOfItsSumpIsDrawnAnewForAll()
    {
        await using var host = await ShopHost.OpenAsync();
        var page = await host.GetAsync(Enter);
        host.Services.GetRequiredService<EntryPagesAhead>().Expect(Light with { Theme = "shop" });
        await ComesAsync(host, Light with { Theme = "shop" });

        var saved = await host.SendAsync(Enter, new() { ["__RequestVerificationToken"] = page.Hidden("__RequestVerificationToken"), ["id"] = page.Hidden("id"), ["value-ph"] = "9.1" });

        Assert.Equal(HttpStatusCode.SeeOther, saved.Status);
        await ComesAsync(host, Light);
        await ComesAsync(host, Light with { Theme = "shop" });
        Assert.Contains("Last <b>9.1</b>, today", (await host.GetAsync(Enter)).Html, StringComparison.Ordinal);
    }

    // As another instance does it: no news of it comes here.
    [Fact]
    public async Task Elapsed_SomethingWasRecordedElsewhere_ThePageIsDrawnAnewByItself()
    {
        await using var host = await ShopHost.OpenAsync();
        await host.GetAsync(Enter);
        await host.Shop.StoreAsync(Some.Reading(ph: 9.1m));
        Assert.Null(await FindAsync(host, Light));

        host.Shop.Clock.Advance(TimeSpan.FromSeconds(10));

        await ComesAsync(host, Light);
    }

    [Fact]
    public async Task Elapsed_TheDayIsOver_ThePageIsDrawnAnewByItself()
    {
        await using var host = await ShopHost.OpenAsync();
        await host.GetAsync(Enter);

        host.Shop.Clock.Advance(TimeSpan.FromDays(1));

        await ComesAsync(host, Light);
    }

    [Fact]
    public async Task DrawAsync_NothingIsAnother_DrawsNothing()
    {
        await using var host = await ShopHost.OpenAsync();
        await ComesAsync(host, Light);

        Assert.Equal(0, await host.Services.GetRequiredService<EntryPagesAhead>().DrawAsync(Token));
    }

    [Fact]
    public async Task DrawAsync_LookWasNotSeenForAWeek_IsNoLongerDrawnFor()
    {
        await using var host = await ShopHost.OpenAsync();
        await host.GetAsync(Enter);
        await ComesAsync(host, Light);

        host.Shop.Clock.Advance(TimeSpan.FromDays(7));

        Assert.Equal(0, await host.Services.GetRequiredService<EntryPagesAhead>().DrawAsync(Token));
        Assert.Null(await FindAsync(host, Light));
    }

    [Fact]
    public async Task DrawAsync_SumpIsEmpty_DrawsTheOther()
    {
        await using var host = await ShopHost.OpenAsync(AddSumpAsync);
        await ComesAsync(host, Light);
        (await host.Shop.DrainAsync(host.Shop.Now)).Done();

        host.Shop.Clock.Advance(TimeSpan.FromSeconds(10));

        await ComesAsync(host, Light, Second);
        Assert.Equal(HttpStatusCode.Conflict, (await host.GetAsync(Enter)).Status);
    }

    // Whoever asks for that one is told that it failed; nobody else may have to.
    [Fact]
    public async Task DrawAsync_OnePageCannotBeDrawn_DrawsTheOthersAndGoesOn()
    {
        await using var host = await ShopHost.OpenAsync(AddSumpAsync);
        await ComesAsync(host, Light, Second);
        await host.Shop.StoreAsync(Some.Reading());
        await host.Shop.ReadAsync(db => db.Database.ExecuteSqlRawAsync("""UPDATE "Standings" SET "Facts" = '{{', "Version" = "Version" + 1 WHERE "SumpId" = (SELECT "Id" FROM "Sumps" WHERE "Tag" = 'S-07')""", Token));
        await host.Shop.StoreAsync(Some.Reading(sump: Second));

        host.Shop.Clock.Advance(TimeSpan.FromSeconds(10));
        await ComesAsync(host, Light, Second);
        await host.Shop.StoreAsync(Some.Reading(sump: Second));
        host.Shop.Clock.Advance(TimeSpan.FromSeconds(10));

        await ComesAsync(host, Light, Second);
        Assert.Null(await FindAsync(host, Light));
    }

    [Fact]
    public async Task Expect_SomebodyWhoMayEnterNothing_DrawsNothing()
    {
        await using var host = await ShopHost.OpenAsync(role: Roles.Auditor);
        Assert.Equal(HttpStatusCode.OK, (await host.GetAsync("/round")).Status);

        Assert.Equal(0, await host.Services.GetRequiredService<EntryPagesAhead>().DrawAsync(Token));
    }

    // A name is put into a page that was drawn without it: it must neither be lost nor become part of the page.
    [Theory]
    [InlineData("B. O'Née <b>&amp;\" onload=\"x")]
    [InlineData("Zoë Łuk 😀 {0}")]
    public async Task Get_PersonWithSignsInTheirName_StandsThereAsWritten(string name)
    {
        await using var host = await ShopHost.OpenAsync();
        (await host.Shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(Some.Id(), "pellow", name, ShopHost.Password, [Roles.Operator], "light"), Some.Supervisor, Token)).Done();
        host.EndSignIn();
        await host.SignInAsync("pellow");

        var entry = await host.GetAsync(Enter);
        var round = await host.GetAsync("/round");

        // The round is drawn for the person itself.
        Assert.Equal(PersonIn(round), PersonIn(entry));
        Assert.Contains(name, entry.Text, StringComparison.Ordinal);
    }

    private static string PersonIn(ShopHost.Page page)
    {
        var from = page.Html.IndexOf("data-person=\"", StringComparison.Ordinal);
        return page.Html[from..page.Html.IndexOf(" data-at=", StringComparison.Ordinal)];
    }

    private static async Task AddSumpAsync(ShopFixture shop)
    {
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, Second, "M-30"));
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, Second))).Done();
    }

    private static Task<DrawnPage?> FindAsync(ShopHost host, ShopLook look, string sump = "S-07") => host.Services.GetRequiredService<KeptEntryPages>().FindAsync(look, sump, Token);

    // It is drawn beside what goes on: soon, but not at once.
    private static async Task ComesAsync(ShopHost host, ShopLook look, string sump = "S-07")
    {
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(Token);
        patience.CancelAfter(TimeSpan.FromSeconds(30));
        while (await FindAsync(host, look, sump) is null)
        {
            await Task.Delay(10, patience.Token);
        }
    }
}
