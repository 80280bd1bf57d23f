using Bunit;
using ShopFluids.Core.Displays;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Setup.Displays;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

public sealed class DisplaysPageTests
{
    private static CancellationToken Stop => Xunit.TestContext.Current.CancellationToken;

    [Fact]
    public async Task Save_AName_ShowsTheLinkOnce()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Type("name", "Hall");
        page.Type("area", desk.Shop.AreaId.ToString());

        await page.SaveAsync();

        var link = page.Find("[data-link]").TextContent;
        Assert.Contains("/board/wall/open?display=", link, StringComparison.Ordinal);
        Assert.NotNull(await desk.Shop.Get<DisplaysQuery>().OfSecretAsync(link.Split('=')[1], Stop));
        Assert.Contains("Turning", page.Find("table.plain tbody tr").TextContent, StringComparison.Ordinal);
        Assert.Empty(Page(desk).FindAll("[data-link]"));
    }

    [Fact]
    public async Task Save_NameIsTaken_SaysSoAtTheField()
    {
        await using var desk = await SetupDesk.OpenAsync();
        (await desk.Shop.Get<SetUpDisplaysHandler>().HandleAsync(new AddDisplay(Some.Id(), "Hall", "shop", null), Some.Supervisor, Stop)).Done();
        var page = Page(desk);
        page.Type("name", "Hall");

        await page.SaveAsync();

        Assert.Equal(Texts.Setup_DisplayNameTaken, page.FaultOf("name"));
    }

    [Fact]
    public async Task Revoke_AskedOnceMore_ClosesTheLink()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var made = (await desk.Shop.Get<SetUpDisplaysHandler>().HandleAsync(new AddDisplay(Some.Id(), "Hall", "shop", null), Some.Supervisor, Stop)).Done();
        var page = Page(desk);

        page.FindAll(".ways button")[2].Click();
        Assert.NotNull(await desk.Shop.Get<DisplaysQuery>().OfSecretAsync(made.Secret, Stop));
        page.Find(".ways .reason .pri").Click();

        page.WaitForState(() => page.FindAll(".ways button").Count == 0, SetupDesk.Patience);
        Assert.Null(await desk.Shop.Get<DisplaysQuery>().OfSecretAsync(made.Secret, Stop));
    }

    private static IRenderedComponent<DisplaysPage> Page(DeskContext desk)
    {
        var page = desk.Render<DisplaysPage>();
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }
}
