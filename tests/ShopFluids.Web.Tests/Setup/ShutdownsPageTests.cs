using Bunit;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Shutdowns;
using ShopFluids.Testing.Shop;
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

    [Fact]
    public async Task Save_Shutdown_ListsTheWorkOfEachSumpBeforeMeanwhileAndAfter()
    {
        await using var desk = await SetupDesk.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading());
        var page = Page(desk);
        page.Type("firstDay", "2026-03-16");
        page.Type("lastDay", "2026-03-29");
        page.Type("reason", "Works holiday");

        await page.SaveAsync();

        page.WaitForAssertion(() => Assert.Single(page.FindAll(".shutwork li")), SetupDesk.Patience);
        Assert.Equal($"sumps/{Some.SumpTag}", page.Find(".shutwork h3 a").GetAttribute("href"));
        var phases = page.FindAll(".shutwork li > div").Select(d => d.TextContent).ToList();
        Assert.Equal(3, phases.Count);
        Assert.Contains("Fri 13 Mar", phases[0], StringComparison.Ordinal);
        Assert.Contains(Texts.Task_SkimHow, phases[0], StringComparison.Ordinal);
        Assert.Contains(Texts.Task_Circulate, phases[1], StringComparison.Ordinal);
        Assert.Contains("Mon 30 Mar", phases[2], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Panel_ManySumps_ShowsAFewUntilAllAreAskedFor()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var words = await desk.WordsAsync();
        var row = new ShutdownRow(Some.Id(), Texts.Setup_ShutdownShop, new(2026, 3, 16), new(2026, 3, 29), 14, "Works holiday", ShutdownState.Planned);
        var work = Enumerable.Range(1, 300).Select(n => new SumpShutdownWork($"S-{n}", [new(Some.Id(), ShutdownPhase.Before, TaskKind.Adjust, ShutdownWork.BeforeOf(row.Id), new(2026, 3, 13), TaskState.Open, null, true)])).ToList();
        var panel = desk.Render<ShutdownWorkPanel>(p => p.Add(c => c.Row, row).Add(c => c.Work, work).Add(c => c.Words, words));
        Assert.Equal(ShutdownWorkPanel.Few, panel.FindAll("li").Count);
        Assert.Contains(Texts.Setup_ShutdownAlsoOfPlan, panel.Find("li").TextContent, StringComparison.Ordinal);

        await panel.Find("button").ClickAsync(new());

        Assert.Equal(300, panel.FindAll("li").Count);
        Assert.Equal("true", panel.Find("button").GetAttribute("aria-expanded"));
    }

    private static IRenderedComponent<ShutdownsPage> Page(DeskContext desk)
    {
        var page = desk.Render<ShutdownsPage>();
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }
}
