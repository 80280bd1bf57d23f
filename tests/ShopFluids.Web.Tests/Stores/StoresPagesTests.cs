using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Stores;
using ShopFluids.Web.Tests.Layout;
using ShopFluids.Web.Tests.Setup;
using Xunit;

namespace ShopFluids.Web.Tests.Stores;

public sealed class StoresPagesTests
{
    [Fact]
    public async Task Render_Stores_SayWhichLotToDrawFromAndWhatWasUsed()
    {
        await using var desk = await OpenAsync();
        (await desk.Shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(Some.Id(), desk.Shop.FluidId, "L-0", expires: new(2026, 4, 1)), Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();

        var page = Page<StoresPage>(desk);

        var lots = page.FindAll("table.lots tbody tr");
        Assert.Equal(2, lots.Count);
        Assert.Contains("L-0", lots[0].TextContent, StringComparison.Ordinal);
        Assert.Contains(Texts.Stores_UseFirst, lots[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("188.0 L of 200.0 L", lots[1].TextContent, StringComparison.Ordinal);
        Assert.Equal($"stores/lots/{desk.Shop.LotId}", lots[1].QuerySelector("a")?.GetAttribute("href"));
        Assert.Contains("Feb 2026", page.Find("table.use").TextContent, StringComparison.Ordinal);
        Assert.Equal("setup/lots", page.Find(".benchacts a").GetAttribute("href"));
    }

    [Fact]
    public async Task Render_EmptyShop_SaysSo()
    {
        await using var desk = await OpenAsync(isSetUp: false);

        Assert.Contains(Texts.Stores_EmptyAdvice, Page<StoresPage>(desk).Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_LowStock_IsMarked()
    {
        await using var desk = await OpenAsync();
        (await desk.Shop.AddAsync(Some.Addition(desk.Shop.LotId, water: 40, concentrate: 6))).Done();
        (await desk.Shop.Get<AdjustLotHandler>().HandleAsync(new(Some.Id(), desk.Shop.LotId, AdjustmentKind.Counted, 1, "Dipstick"), Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();

        Assert.Contains(Texts.Stores_Low, Page<StoresPage>(desk).Find(".stock .v").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_Lot_AnswersWhichMachinesRanOnIt()
    {
        await using var desk = await OpenAsync();

        var page = Lot(desk);

        Assert.Contains("Charges that ran on it: 1. Sumps: 1. Machines: 1.", page.Find(".sum").TextContent, StringComparison.Ordinal);
        var row = page.Find("table.trace tbody tr");
        Assert.Contains("M-07", row.TextContent, StringComparison.Ordinal);
        Assert.Equal("sumps/S-07", row.QuerySelector("a")?.GetAttribute("href"));
        Assert.Contains(Texts.Stores_NothingElse, row.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Count_Typed_ChangesTheLotAndSaysSo()
    {
        await using var desk = await OpenAsync();
        var page = Lot(desk);

        page.Type("countedLitres", "150,5");
        page.Type("reason", "Dipstick");
        await page.Find("form.setform").SubmitAsync();

        page.WaitForAssertion(() => Assert.Contains(Texts.Stores_CountSaved, page.Markup, StringComparison.Ordinal), SetupDesk.Patience);
        Assert.Contains("150.5 L", page.Find(".bh").TextContent, StringComparison.Ordinal);
        Assert.Contains("Dipstick", page.Find("[aria-labelledby=counts-title]").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Count_MoreThanWasReceived_NamesTheRangeAndKeepsWhatWasTyped()
    {
        await using var desk = await OpenAsync();
        var page = Lot(desk);

        page.Type("countedLitres", "500");
        page.Type("reason", "Dipstick");
        await page.Find("form.setform").SubmitAsync();

        page.WaitForAssertion(() => Assert.Contains("200", page.Find(".faults").TextContent, StringComparison.Ordinal), SetupDesk.Patience);
        Assert.Equal("500", page.Find("#f-countedLitres").GetAttribute("value"));
        Assert.Equal(0, await desk.Shop.CountAsync<LotAdjustment>());
    }

    [Fact]
    public async Task Discard_WithReason_LeavesNothing()
    {
        await using var desk = await OpenAsync();
        var page = Lot(desk);

        await page.FindAll("button").Single(b => b.TextContent.Trim() == Texts.Stores_Discard).ClickAsync(new());
        page.Find(".reason input, .reason textarea").Change("Split in the cold");
        await page.FindAll("button").Single(b => b.TextContent.Trim() == Texts.Stores_DiscardDo).ClickAsync(new());

        page.WaitForAssertion(() => Assert.Contains(Texts.Setup_LotUsedUp, page.Find(".bh").TextContent, StringComparison.Ordinal), SetupDesk.Patience);
    }

    [Fact]
    public async Task Render_UnknownLot_SaysSo()
    {
        await using var desk = await OpenAsync();

        Assert.Contains(Texts.Error_LotNotFound, Lot(desk, Some.Id()).Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_LotForAnOperator_OffersNoCount()
    {
        await using var desk = await OpenAsync(isSupervisor: false);

        Assert.Empty(Lot(desk).FindAll("form"));
    }

    private static async Task<DeskContext> OpenAsync(bool isSetUp = true, bool isSupervisor = true)
    {
        var desk = await SetupDesk.OpenAsync(isSetUp, isSupervisor);
        desk.Services.AddSingleton(desk.Shop.Get<StoresQuery>());
        desk.Services.AddSingleton(desk.Shop.Get<LotTraceQuery>());
        desk.Services.AddSingleton(desk.Shop.Get<AdjustLotHandler>());
        return desk;
    }

    private static IRenderedComponent<LotPage> Lot(DeskContext desk, Guid? id = null)
    {
        var page = desk.Render<LotPage>(p => p.Add(l => l.Id, id ?? desk.Shop.LotId));
        page.WaitForElement("h1", SetupDesk.Patience);
        return page;
    }

    private static IRenderedComponent<T> Page<T>(DeskContext desk)
        where T : Microsoft.AspNetCore.Components.IComponent
    {
        var page = desk.Render<T>();
        page.WaitForElement("h1", SetupDesk.Patience);
        return page;
    }
}
