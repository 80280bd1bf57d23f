using Bunit;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Sheets;
using ShopFluids.Web.Pages.Sheets.Jobs;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Sheets;

public sealed class SheetsPageTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    [Fact]
    public async Task Render_NothingSetUp_SaysSo()
    {
        await using var desk = await OpenAsync(isSetUp: false);

        Assert.Contains(Texts.Board_EmptyAdvice, Page(desk).Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_NothingTicked_SaysWhatIsMissingAndShowsNoJobs()
    {
        await using var desk = await OpenAsync();

        var panel = History(Page(desk));

        Assert.Equal(Texts.Sheet_ChooseOne, panel.QuerySelector(".fault")?.TextContent);
        Assert.Empty(Page(desk).FindAll("#jobs-title"));
    }

    [Fact]
    public async Task Tick_OneSump_OpensItAtOnce()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk);

        Tick(page, "S-07,");

        Assert.Equal("sheets/sumps/S-07/history.pdf?paper=a4", History(page).QuerySelector("a.btn")?.GetAttribute("href"));
    }

    [Fact]
    public async Task Choose_Days_GoIntoTheAddressAndAreChecked()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk);
        Tick(page, "S-07,");

        await page.FindAll("input[name=history-period]")[1].ChangeAsync(new() { Value = "on" });
        await page.FindAll(".days input")[0].ChangeAsync(new() { Value = "2026-02-01" });

        Assert.Equal("sheets/sumps/S-07/history.pdf?from=2026-02-01&to=2026-03-02&paper=a4", History(page).QuerySelector("a.btn")?.GetAttribute("href"));
        await page.FindAll(".days input")[1].ChangeAsync(new() { Value = "2026-01-01" });
        Assert.Equal(Texts.Sheet_PeriodEndsFirst, History(page).QuerySelector(".fault")?.TextContent);
    }

    [Fact]
    public async Task Make_Several_WaitsRunsAndCanBeHad()
    {
        await using var desk = await OpenAsync();
        await desk.Shop.SumpAsync(Some.Sump(Some.Id(), desk.Shop.AreaId, "S-08", "M-08", walkOrder: 8));
        var page = Page(desk);

        await MakeBothAsync(page);

        Assert.Equal(Texts.Sheet_JobTaken, page.Find(".said").TextContent);
        page.WaitForState(() => page.FindAll(".jobs li").Count == 1, Patience);
        var job = page.Find(".jobs li");
        Assert.Contains("S-07, S-08", job.TextContent, StringComparison.Ordinal);
        Assert.Contains(Texts.Sheet_JobWaiting, job.TextContent, StringComparison.Ordinal);
        await RunAsync(desk, () => page.WaitForState(() => page.FindAll(".jobs a").Count == 1, Patience));
        Assert.StartsWith("sheets/files/", page.Find(".jobs a").GetAttribute("href"), StringComparison.Ordinal);
        Assert.Contains("Ready. Kept until 08:30.", page.Find(".jobs li").TextContent, StringComparison.Ordinal);
        var made = Jobs(desk).FileOf(Jobs(desk).Of(Maker)[0].Id, Maker);
        Assert.StartsWith("%PDF-", System.Text.Encoding.ASCII.GetString(made ?? [], 0, 5), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Cancel_Waiting_SaysCancelled()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk);
        Jobs(desk).TryAdd(Maker, "S-07, S-08", 2, Nothing);
        page.WaitForState(() => page.FindAll(".jobs button").Count == 1, Patience);

        await page.Find(".jobs button").ClickAsync(new());

        page.WaitForState(() => page.Find(".jobs li").TextContent.Contains(Texts.Sheet_JobCancelled, StringComparison.Ordinal), Patience);
        Assert.Empty(page.FindAll(".jobs button"));
    }

    [Fact]
    public async Task Make_QueueFull_SaysSo()
    {
        await using var desk = await OpenAsync();
        await desk.Shop.SumpAsync(Some.Sump(Some.Id(), desk.Shop.AreaId, "S-08", "M-08", walkOrder: 8));
        for (var n = 0; n < SheetJobs.MostWaiting; n++)
        {
            Jobs(desk).TryAdd(Some.Id(), "somebody else's", 1, Nothing);
        }

        var page = Page(desk);
        await MakeBothAsync(page);

        Assert.Equal(Texts.Sheet_JobsFull, page.Find(".said").TextContent);
        Assert.Empty(page.FindAll(".jobs"));
    }

    [Fact]
    public async Task Run_WorkFails_ShowsWhy()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk);
        Jobs(desk).TryAdd(Maker, "S-99", 1, (_, _) => Task.FromResult(SheetMade.Refused("There is no sump S-99.")));

        await RunAsync(desk, () => page.WaitForState(() => page.Markup.Contains("No file was made. There is no sump S-99.", StringComparison.Ordinal), Patience));

        Assert.Empty(page.FindAll(".jobs a, .jobs button"));
    }

    [Theory]
    [InlineData("Overdue", "sheets/overdue.pdf?by=area&paper=a4")]
    [InlineData("Waste", "sheets/waste.pdf?paper=a4")]
    [InlineData("Dosing", "sheets/dosing.pdf?paper=a4")]
    [InlineData("Month", "sheets/month.pdf?month=2026-03&paper=a4")]
    [InlineData("Instruments", "sheets/instruments.pdf?paper=a4")]
    public async Task Choose_SheetAboutTheShop_LinksToIt(string kind, string address)
    {
        await using var desk = await OpenAsync();
        var page = Page(desk);

        await page.Find("#list-kind").ChangeAsync(new() { Value = kind });

        Assert.Equal(address, Lists(page).QuerySelector("a.btn")?.GetAttribute("href"));
    }

    [Fact]
    public async Task Choose_LotTrace_NamesTheLot()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk);

        await page.Find("#list-kind").ChangeAsync(new() { Value = "Lot" });

        Assert.Equal("L-1, Emulsion A", page.Find("#list-lot option").TextContent);
        Assert.Equal($"sheets/lot.pdf?lot={desk.Shop.LotId}&paper=a4", Lists(page).QuerySelector("a.btn")?.GetAttribute("href"));
    }

    private static Guid Maker => Some.Supervisor.PersonId ?? Guid.Empty;

    private static SheetWork Nothing => (_, _) => Task.FromResult(SheetMade.Of([]));

    private static async Task<DeskContext> OpenAsync(bool isSetUp = true)
    {
        var desk = await DeskContext.OpenAsync(isSetUp: isSetUp);
        desk.Services.AddSingleton(desk.Shop.Get<LotsQuery>());
        desk.Services.AddSingleton<HistorySheetQuery>();
        desk.Services.AddSingleton<HistoryFile>();
        desk.Services.AddSingleton(new SheetJobs(desk.Shop.Clock, NullLogger<SheetJobs>.Instance));
        return desk;
    }

    private static IRenderedComponent<SheetsPage> Page(DeskContext desk)
    {
        var page = desk.Render<SheetsPage>();
        page.WaitForState(() => page.FindAll(".late-show").Count == 0, Patience);
        return page;
    }

    private static AngleSharp.Dom.IElement History(IRenderedComponent<SheetsPage> page) => page.Find("section[aria-labelledby=history-title]");

    private static AngleSharp.Dom.IElement Lists(IRenderedComponent<SheetsPage> page) => page.Find("section[aria-labelledby=lists-title]");

    private static SheetJobs Jobs(DeskContext desk) => desk.Services.GetRequiredService<SheetJobs>();

    private static void Tick(IRenderedComponent<SheetsPage> page, string name) =>
        History(page).QuerySelectorAll("label").First(l => l.TextContent.Trim().StartsWith(name, StringComparison.Ordinal)).QuerySelector("input")!.Change(true);

    private static Task MakeBothAsync(IRenderedComponent<SheetsPage> page)
    {
        Tick(page, "S-08,");
        Tick(page, "S-07,");
        return page.Find("section[aria-labelledby=history-title] .go button").ClickAsync(new());
    }

    private static async Task RunAsync(DeskContext desk, Action until)
    {
        using var stop = new CancellationTokenSource();
        var running = Jobs(desk).RunAsync(stop.Token);
        until();
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);
    }
}
