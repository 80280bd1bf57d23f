using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Overview;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Overview;
using ShopFluids.Web.Tests.Layout;
using ShopFluids.Web.Tests.Setup;
using Xunit;

namespace ShopFluids.Web.Tests.Overview;

public sealed class OverviewPageTests
{
    [Fact]
    public async Task Render_Sump_StandsByWordAndShapeWithItsAge()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m, takenAt: Some.Start.AddDays(-3)));

        var page = Page(desk);

        var cell = page.Find(".heat .cell");
        Assert.Equal("sumps/S-07", cell.GetAttribute("href"));
        Assert.Contains(Texts.Verdict_ActionLow, cell.TextContent, StringComparison.Ordinal);
        Assert.Contains("read 3 days ago", cell.TextContent, StringComparison.Ordinal);
        Assert.Equal("#act-lo", cell.QuerySelector("use")?.GetAttribute("href"));
        Assert.Equal(3, cell.QuerySelectorAll("rect.a-on").Length);
    }

    [Fact]
    public async Task Render_Months_AreChartsWithASentenceAndATable()
    {
        await using var desk = await DeskContext.OpenAsync();

        var page = Page(desk);

        var charts = page.FindAll("figure.monthbars svg[role=img]");
        Assert.Equal(2, charts.Count);
        Assert.StartsWith("Concentrate used, L: Apr 0.0", charts[0].GetAttribute("aria-label"), StringComparison.Ordinal);
        Assert.Contains("Feb 12.0", charts[0].GetAttribute("aria-label"), StringComparison.Ordinal);
        Assert.Equal(12, charts[0].QuerySelectorAll("rect.mbar").Length);
        Assert.Equal(12, page.FindAll(".months-table tbody tr").Count);
        Assert.Contains("Feb 2026", page.FindAll(".months-table tbody tr")[1].TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_Use_RanksSumpsAndSplitsWhatWentWhere()
    {
        await using var desk = await DeskContext.OpenAsync();
        (await desk.Shop.AddAsync(Some.Addition(desk.Shop.LotId, water: 20, concentrate: 2, removed: 5))).Done();

        var page = Page(desk);

        Assert.Contains("Put in by fills 150.0 L, by top-ups 22.0 L. Drained 0.0 L, taken out besides 5.0 L.", page.Find("[aria-labelledby=goes-title]").TextContent, StringComparison.Ordinal);
        var row = page.FindAll("table.goes")[0].QuerySelector("tbody tr");
        Assert.Contains("172.0 L", row?.TextContent, StringComparison.Ordinal);
        Assert.Equal("sumps/S-07", row?.QuerySelector("a")?.GetAttribute("href"));
    }

    [Fact]
    public async Task Render_EmptyShop_SaysSo()
    {
        await using var desk = await DeskContext.OpenAsync(isSetUp: false);

        Assert.Equal(Texts.Board_EmptyTitle, Page(desk).Find("h1").TextContent);
    }

    private static IRenderedComponent<OverviewPage> Page(DeskContext desk)
    {
        desk.Services.AddSingleton<ShopOverviewQuery>();
        var page = desk.Render<OverviewPage>();
        page.WaitForElement("h1", SetupDesk.Patience);
        return page;
    }
}
