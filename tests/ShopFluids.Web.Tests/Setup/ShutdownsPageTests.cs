using Bunit;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Setup.Care;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

public sealed class ShutdownsPageTests
{
    [Fact]
    public async Task Save_Shutdown_IsListedAndSaysHowMuchWorkItMakes()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Type("firstDay", "2026-03-16");
        page.Type("lastDay", "2026-03-29");
        page.Type("reason", "Works holiday");

        await page.SaveAsync();

        page.WaitForAssertion(() => Assert.Contains("Works holiday", page.Find("tbody tr").TextContent, StringComparison.Ordinal), SetupDesk.Patience);
        Assert.Equal(1, await desk.Shop.CountAsync<Shutdown>());
        Assert.Contains(page.FindAll("[role=status]"), s => s.TextContent.StartsWith("The shutdown is planned, with", StringComparison.Ordinal));
    }

    // The second press of an impatient finger finds the form saved and empty.
    [Fact]
    public async Task Save_PressedTwice_SavesOnceAndComplainsOfNothing()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Type("firstDay", "2026-03-16");
        page.Type("lastDay", "2026-03-29");
        page.Type("reason", "Works holiday");
        await page.SaveAsync();
        page.WaitForAssertion(() => Assert.Contains("Works holiday", page.Find("tbody tr").TextContent, StringComparison.Ordinal), SetupDesk.Patience);

        await page.SaveAsync();

        Assert.Empty(page.FindAll("[aria-invalid=true]"));
        Assert.Equal(1, await desk.Shop.CountAsync<Shutdown>());
        Assert.Contains(page.FindAll("[role=status]"), s => s.TextContent.StartsWith("The shutdown is planned, with", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Save_LastDayBeforeTheFirst_RefusesAtTheLastDayAndKeepsWhatWasTyped()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Type("firstDay", "2026-03-16");
        page.Type("lastDay", "2026-03-10");
        page.Type("reason", "Works holiday");

        await page.SaveAsync();

        Assert.Contains("16 Mar", page.FaultOf("lastDay"), StringComparison.Ordinal);
        Assert.Equal("Works holiday", page.ValueOf("reason"));
        Assert.Equal(0, await desk.Shop.CountAsync<Shutdown>());
    }

    [Fact]
    public async Task Withdraw_Planned_AsksOnceAndSaysSo()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Type("firstDay", "2026-03-16");
        page.Type("lastDay", "2026-03-29");
        page.Type("reason", "Works holiday");
        await page.SaveAsync();
        page.WaitForAssertion(() => Assert.Single(page.FindAll("tbody tr")), SetupDesk.Patience);

        await page.Find("td.ways button").ClickAsync(new());
        await page.Find("td.ways button.pri").ClickAsync(new());

        page.WaitForAssertion(() => Assert.Equal(Texts.Setup_ShutdownWithdrawn, page.Find("td.ways").TextContent.Trim()), SetupDesk.Patience);
        Assert.True(Assert.Single((await desk.Shop.SetupAsync()).Shutdowns).IsWithdrawn);
    }

    private static IRenderedComponent<ShutdownsPage> Page(DeskContext desk)
    {
        var page = desk.Render<ShutdownsPage>();
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }
}
