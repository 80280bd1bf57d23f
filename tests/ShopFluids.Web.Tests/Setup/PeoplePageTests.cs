using Bunit;
using ShopFluids.Core.People;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Setup.People;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

public sealed class PeoplePageTests
{
    private static CancellationToken Stop => Xunit.TestContext.Current.CancellationToken;

    [Fact]
    public async Task Rename_WhoHasLeft_StandsAsANumberWithTheDay()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var made = new MakeAccount(Some.Id(), "robin", "Robin Vale", "long enough to pass", [Roles.Operator], "light");
        (await desk.Shop.Get<MakeAccountHandler>().HandleAsync(made, Some.Supervisor, Stop)).Done();
        var page = Page(desk);
        Assert.Contains("Robin Vale", page.Find("table.plain").TextContent, StringComparison.Ordinal);
        page.Type("leaver", "robin");

        await page.FindAll("form")[2].SubmitAsync(EventArgs.Empty);

        page.WaitForState(() => !page.Find("table.plain").TextContent.Contains("Robin Vale", StringComparison.Ordinal), SetupDesk.Patience);
        var row = page.FindAll("table.plain tbody tr").Single(r => r.TextContent.Contains("left on", StringComparison.Ordinal));
        Assert.Equal(["Person 2", "Person 2", "", "left on 2 Mar 2026"], row.QuerySelectorAll("td, th").Take(4).Select(c => c.TextContent));
        Assert.DoesNotContain(page.FindAll("#f-person option"), o => o.TextContent.Contains("Person 2", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Rename_Nobody_SaysSoAndKeepsWhatWasTyped()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Type("leaver", "nobody");

        await page.FindAll("form")[2].SubmitAsync(EventArgs.Empty);

        page.WaitForState(() => page.FindAll("form")[2].TextContent.Contains("nobody", StringComparison.Ordinal), SetupDesk.Patience);
        Assert.Equal("nobody", page.ValueOf("leaver"));
    }

    private static IRenderedComponent<PeoplePage> Page(DeskContext desk)
    {
        var page = desk.Render<PeoplePage>();
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }
}
