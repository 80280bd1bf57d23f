using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Setup.MachineLists;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Setup.Start;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

public sealed class StartPageTests
{
    private const string Good = "S-01; M-01 Turning centre; North bay; 1000 × 500 × 400; 340; 60\nS-02; M-02 Mill; Hall; 1.200 x 500 x 400; 340; 60";

    [Fact]
    public async Task Render_NothingButTheSite_TicksItAndLeadsToTheFluid()
    {
        await using var desk = await OpenAsync(isSetUp: false);
        (await desk.Shop.Get<SaveSiteHandler>().HandleAsync(Some.Site(), Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();

        var page = Page(desk);

        Assert.Equal([Texts.Start_Done, Texts.Start_Next, Texts.Start_Later, Texts.Start_Later], Stands(page));
        Assert.Equal("setup/fluids/new", page.Find("li.next a.pri").GetAttribute("href"));
        Assert.Single(page.FindAll("#f-machineList"));
    }

    [Fact]
    public async Task Render_EverythingThere_TicksEveryStep()
    {
        await using var desk = await OpenAsync();

        Assert.All(Stands(Page(desk)), stand => Assert.Equal(Texts.Start_Done, stand));
    }

    [Fact]
    public async Task Type_AWrongLine_ShowsTheTableWithTheFaultAtItsCellAndKeepsTheText()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk);

        page.Type("machineList", Good + "\nS-03; Mill; Hall; 1000 x 500 x 400; 412; 60");

        page.WaitForElement("table.listed", SetupDesk.Patience);
        Assert.Equal("2 of 3 lines are to be put right.", page.Find(".full p.said").TextContent);
        var rows = page.FindAll("table.listed tbody tr");
        Assert.Equal("170.0 L", rows[0].QuerySelectorAll("td")[^1].TextContent);
        Assert.Equal("Length 1.2 mm is outside the accepted range of 10 mm to 20,000 mm.", rows[1].QuerySelector("td.bad .fault")?.TextContent);
        Assert.Equal("Full mark 412 mm is outside the accepted range of 1 mm to 400 mm.", rows[2].QuerySelector("td.bad .fault")?.TextContent);

        await page.SaveAsync();

        Assert.Equal(2, page.FindAll(".faults li").Count);
        Assert.StartsWith("Line 2: Length", page.Find(".faults li").TextContent.Trim(), StringComparison.Ordinal);
        Assert.Contains("S-03", page.Find("#f-machineList").GetAttribute("value"), StringComparison.Ordinal);
        Assert.Single((await desk.Shop.SetupAsync()).Sumps);
    }

    [Fact]
    public async Task Save_GoodList_AddsThemAllAndEmptiesTheBox()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk);
        page.Type("machineList", Good.Replace("1.200", "1200", StringComparison.Ordinal));
        page.Type("weeklyHours", "62,5");

        await page.SaveAsync();

        Assert.Empty(page.FindAll(".faults"));
        page.WaitForAssertion(() => Assert.Equal("2 machines with their sumps are added.", page.Find(".formfoot .said").TextContent), SetupDesk.Patience);
        Assert.Equal("", page.Find("#f-machineList").GetAttribute("value") ?? "");
        Assert.Empty(page.FindAll("table.listed"));
        var setup = await desk.Shop.SetupAsync();
        Assert.Equal(["S-07", "S-01", "S-02"], setup.Sumps.Select(s => s.Tag));
        Assert.Equal(62.5m, setup.Machines.Single(m => m.Tag == "M-01").WeeklyHours);
        Assert.Equal("setup/charges/fill?sump=S-01", page.Find("li.next a.pri").GetAttribute("href"));
    }

    private static async Task<DeskContext> OpenAsync(bool isSetUp = true)
    {
        var desk = await SetupDesk.OpenAsync(isSetUp);
        desk.Services.AddSingleton(desk.Shop.Get<AddMachineListHandler>());
        return desk;
    }

    private static IRenderedComponent<StartPage> Page(DeskContext desk)
    {
        var page = desk.Render<StartPage>();
        page.WaitForElement("ol.steps", SetupDesk.Patience);
        return page;
    }

    private static IEnumerable<string> Stands(IRenderedComponent<StartPage> page) => page.FindAll(".stepstand").Select(s => s.TextContent.Trim());
}
