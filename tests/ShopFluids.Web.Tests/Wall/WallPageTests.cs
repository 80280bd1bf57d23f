using System.Net;
using ShopFluids.Core.Displays;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Wall;

/// <summary>The wall shows the shop to a display with a link, until the link is revoked, and opens nothing else to it.</summary>
public sealed class WallPageTests
{
    private const string Wall = "/board/wall";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Get_SignedIn_ShowsCountsRowsAndWhoIsToDoWhat()
    {
        await using var host = await ShopHost.OpenAsync(async shop => await shop.StoreAsync(Some.Reading(brix: 4.0m)));

        var page = await host.GetAsync(Wall);

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains("Concentration 4.0 %, action limit", page.Text, StringComparison.Ordinal);
        Assert.Contains("<b>1</b><span>Action</span>", page.Html, StringComparison.Ordinal);
        Assert.Contains(Texts.Wall_Nobody, page.Text, StringComparison.Ordinal);
        Assert.Contains("Hall 3", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", page.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("_blazor", page.Html, StringComparison.Ordinal);
        Assert.Contains("style-src 'self';", page.ContentPolicy, StringComparison.Ordinal);
        Assert.Contains("http-equiv=\"refresh\" content=\"30;url=/board/wall?turn=0\"", page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_Dosed_SaysToKeepAwayFirst()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.StoreAsync(Some.Reading(brix: 4.0m));
            (await shop.Get<NoteDoseHandler>().HandleAsync(Some.Dose(), Some.Operator, isSupervisor: false, Stop)).Done();
        });

        var page = await host.GetAsync(Wall);

        Assert.Contains("Keep away until 2 Mar 2026, 12:00: Biocide B-20. Concentration 4.0 %, action limit", page.Text, StringComparison.Ordinal);
    }

    // Whoever is sent there to skim reads it here, and perhaps nowhere else.
    [Fact]
    public async Task Get_ItSmellsOfRottenEggs_WarnsOfTheGasFirst()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
            await shop.StoreAsync(Some.Reading() with { Measurements = [.. Some.Reading().Measurements, Some.Typed(ParameterCodes.Odour, 3)] }));

        var page = await host.GetAsync(Wall);

        Assert.Contains($"{Texts.Caution_HydrogenSulphideShort} Odour", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_NobodyAndNoDisplay_IsShownTheDoor()
    {
        await using var host = await ShopHost.OpenAsync();
        host.EndSignIn();

        var page = await host.GetAsync(Wall);

        Assert.Equal(HttpStatusCode.Redirect, page.Status);
        Assert.Contains("/account/sign-in", page.Location, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Forbidden, (await host.GetAsync(Wall + "/turn/0")).Status);
    }

    [Fact]
    public async Task Open_WithTheLink_ShowsTheWallAndNothingElse()
    {
        await using var host = await ShopHost.OpenAsync();
        var link = await LinkAsync(host);
        host.EndSignIn();

        var opened = await host.GetAsync(link);

        Assert.Equal((HttpStatusCode.SeeOther, Wall), (opened.Status, opened.Location));
        var page = await host.GetAsync(Wall);
        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains("data-theme=\"dark\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("id=\"screen\"", (await host.GetAsync(Wall + "/turn/0")).Html, StringComparison.Ordinal);
        foreach (var address in new[] { "/board", "/sumps/S-07", "/round", "/setup", "/api/v1/sumps", "/search?q=S" })
        {
            Assert.NotEqual(HttpStatusCode.OK, (await host.GetAsync(address)).Status);
        }
    }

    [Fact]
    public async Task Get_LinkWasRevoked_ShowsNothingOfTheShop()
    {
        await using var host = await ShopHost.OpenAsync();
        var link = await LinkAsync(host);
        host.EndSignIn();
        await host.GetAsync(link);
        var display = Assert.Single(await host.Shop.Get<DisplaysQuery>().AllAsync(Stop));
        (await host.Shop.Get<SetUpDisplaysHandler>().HandleAsync(new RevokeDisplay(display.Id), Some.Supervisor, Stop)).Done();

        Assert.Equal(HttpStatusCode.Forbidden, (await host.GetAsync(Wall + "/turn/0")).Status);
        var page = await host.GetAsync(Wall);

        Assert.Equal(HttpStatusCode.Forbidden, page.Status);
        Assert.Contains(Texts.Wall_Revoked, page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("S-07", page.Html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Forbidden, (await host.GetAsync(link)).Status);
    }

    [Theory]
    [InlineData("/board/wall/open")]
    [InlineData("/board/wall/open?display=")]
    [InlineData("/board/wall/open?display=0000")]
    public async Task Open_WithAnotherLink_IsRefused(string address)
    {
        await using var host = await ShopHost.OpenAsync();
        host.EndSignIn();

        Assert.Equal(HttpStatusCode.Forbidden, (await host.GetAsync(address)).Status);
        Assert.Equal(HttpStatusCode.Redirect, (await host.GetAsync(Wall)).Status);
    }

    [Fact]
    public async Task Turn_BeyondTheLast_BeginsAnew()
    {
        await using var host = await ShopHost.OpenAsync();

        var screen = await host.GetAsync(Wall + "/turn/17");

        Assert.Contains("data-turn=\"0\"", screen.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("<html", screen.Html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await host.GetAsync(Wall + "?turn=-3")).Status);
    }

    private static async Task<string> LinkAsync(ShopHost host)
    {
        var made = (await host.Shop.Get<SetUpDisplaysHandler>().HandleAsync(new AddDisplay(Some.Id(), "Hall", "dark", null), Some.Supervisor, Stop)).Done();
        return $"{Wall}/open?display={made.Secret}";
    }
}
