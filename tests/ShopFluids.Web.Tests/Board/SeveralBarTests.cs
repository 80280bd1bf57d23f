using Bunit;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Board;
using ShopFluids.Web.Pages.Board.Several;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Board;

/// <summary>Several pieces of work at once: what can be done is done, what is refused is told by row.</summary>
public sealed class SeveralBarTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    [Fact]
    public async Task Give_TwoTicked_GivesBoth()
    {
        await using var desk = await OpenAsync();
        var page = Board(desk);
        Assert.Empty(page.FindAll(".several"));
        TickAll(page);
        Assert.Equal("2 pieces of work are ticked", page.Find(".several h2").TextContent);

        page.Find(".several select").Change(Some.Supervisor.PersonId.ToString());
        await Button(page, Texts.Board_GiveAll).ClickAsync(new());

        page.WaitForAssertion(() => Assert.Equal("Done for 2 of 2.", page.Find(".several .said").TextContent), Patience);
        Assert.All(await OpenAsync(desk), t => Assert.Equal(Some.Supervisor.PersonId, t.AssignedToId));
        Assert.Equal(Texts.Board_TickedNone, page.Find(".several h2").TextContent);
    }

    [Fact]
    public async Task Skip_OneEndedMeanwhile_SkipsTheOtherAndTellsWhich()
    {
        await using var desk = await OpenAsync();
        var page = Board(desk);
        TickAll(page);
        var first = (await OpenAsync(desk)).OrderBy(t => t.SumpId == desk.Shop.SumpId).First();
        (await desk.Shop.Get<EndTaskHandler>().HandleAsync(new EndTask(first.Id, TaskState.Done), Some.Operator, isSupervisor: false, Xunit.TestContext.Current.CancellationToken)).Done();

        await Button(page, Texts.Board_Skip).ClickAsync(new());
        await page.Find(".several textarea").ChangeAsync(new() { Value = "Shop is closed" });
        await page.Find(".several .reason .pri").ClickAsync(new());

        page.WaitForAssertion(() => Assert.Equal("Done for 1 of 2.", page.Find(".several .said").TextContent), Patience);
        var refused = Assert.Single(page.FindAll(".several .refused li"));
        Assert.StartsWith("S-01", refused.TextContent, StringComparison.Ordinal);
        Assert.EndsWith(Texts.Error_TaskEnded, refused.TextContent, StringComparison.Ordinal);
        var skipped = await desk.Shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.State == TaskState.Skipped));
        Assert.Equal((desk.Shop.SumpId, "Shop is closed"), (skipped.SumpId, skipped.EndReason));
    }

    [Fact]
    public async Task Redate_WithDayAndReason_MovesBoth()
    {
        await using var desk = await OpenAsync();
        var page = Board(desk);
        TickAll(page);
        await Button(page, Texts.Board_Redate).ClickAsync(new());
        await page.Find(".several textarea").ChangeAsync(new() { Value = "Belt is on order" });
        await page.Find(".several .reason .pri").ClickAsync(new());
        Assert.Equal(Texts.Board_RedateDay, page.Find(".several .fault").TextContent);

        page.Find(".several input[type=date]").Change("2026-03-05");
        await page.Find(".several .reason .pri").ClickAsync(new());

        page.WaitForAssertion(() => Assert.Equal("Done for 2 of 2.", page.Find(".several .said").TextContent), Patience);
        Assert.All(await OpenAsync(desk), t => Assert.Equal(new DateTime(2026, 3, 6, 5, 0, 0, DateTimeKind.Utc), t.DueAtUtc));
    }

    // 7 March 2026 is a Saturday.
    [Fact]
    public async Task Redate_ToAClosedDay_SaysSoAtOnce()
    {
        await using var desk = await OpenAsync();
        var page = Board(desk);
        TickAll(page);

        page.Find(".several input[type=date]").Change("2026-03-07");
        Assert.Contains("The shop is closed on 7 Mar 2026.", page.Find(".several").TextContent, StringComparison.Ordinal);

        page.Find(".several input[type=date]").Change("2026-03-05");
        Assert.DoesNotContain("The shop is closed", page.Find(".several").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Redate_DayInThePast_TellsTheRangeAndKeepsTheReason()
    {
        await using var desk = await OpenAsync();
        var page = Board(desk);
        TickAll(page);
        page.Find(".several input[type=date]").Change("2026-02-05");
        await Button(page, Texts.Board_Redate).ClickAsync(new());
        await page.Find(".several textarea").ChangeAsync(new() { Value = "Belt is on order" });
        await page.Find(".several .reason .pri").ClickAsync(new());

        page.WaitForAssertion(() => Assert.Equal(2, page.FindAll(".several .refused li").Count), Patience);
        Assert.Equal(Texts.Board_NoneDone, page.Find(".several .fault").TextContent);
        Assert.Equal("Belt is on order", page.Find(".several textarea").GetAttribute("value"));
        Assert.Equal("2 pieces of work are ticked", page.Find(".several h2").TextContent);
    }

    [Fact]
    public async Task Untick_All_TakesTheBarAway()
    {
        await using var desk = await OpenAsync();
        var page = Board(desk);
        TickAll(page);

        await Button(page, Texts.Board_Untick).ClickAsync(new());

        Assert.Empty(page.FindAll(".several"));
        Assert.DoesNotContain(page.FindAll("tbody input[type=checkbox]"), c => c.HasAttribute("checked"));
    }

    [Fact]
    public async Task Give_RightTakenAway_SaysSoForEach()
    {
        await using var desk = await OpenAsync(isSupervisor: false);
        var words = await Setup.SetupDesk.WordsAsync(desk);
        var ticked = (await OpenAsync(desk)).Select(t => new TickedTask(t.Id, "S-07", "Skim")).ToList();
        var bar = desk.Render<SeveralBar>(p => p.Add(b => b.Ticked, ticked).Add(b => b.People, []).Add(b => b.Words, words).Add(b => b.Changed, _ => { }).Add(b => b.Close, () => { }));

        await Button(bar, Texts.Board_GiveAll).ClickAsync(new());

        bar.WaitForAssertion(() => Assert.All(bar.FindAll(".refused li"), li => Assert.EndsWith(Texts.Board_MayNot, li.TextContent, StringComparison.Ordinal)), Patience);
        Assert.Equal(2, bar.FindAll(".refused li").Count);
    }

    // S-07 and S-01, each with skimming that is due today.
    private static async Task<DeskContext> OpenAsync(bool isSupervisor = true)
    {
        var desk = await DeskContext.OpenAsync(isSupervisor);
        await desk.Shop.SumpAsync(Some.Sump(Some.Id(), desk.Shop.AreaId, "S-01", "M-01", walkOrder: 1));
        (await desk.Shop.FillAsync(Some.Fill(Some.Id(), desk.Shop.FluidId, desk.Shop.LotId, "S-01"))).Done();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Skim));
        await desk.Shop.StepAsync(Some.Step(TaskKind.Skim, "S-01"));
        return desk;
    }

    private static IRenderedComponent<BoardPage> Board(DeskContext desk)
    {
        desk.TakeOver();
        var page = desk.Render<BoardPage>();
        page.WaitForElement("tbody input[type=checkbox]", Patience);
        return page;
    }

    private static void TickAll(IRenderedComponent<BoardPage> page)
    {
        for (var i = 0; i < page.FindAll("tbody input[type=checkbox]").Count; i++)
        {
            page.FindAll("tbody input[type=checkbox]")[i].Change(true);
        }
    }

    private static AngleSharp.Dom.IElement Button<T>(IRenderedComponent<T> page, string text)
        where T : Microsoft.AspNetCore.Components.IComponent => page.FindAll(".several button").First(b => b.TextContent == text);

    private static Task<List<CareTask>> OpenAsync(DeskContext desk) => desk.Shop.ReadAsync(db => db.CareTasks.Where(t => t.State == TaskState.Open).ToListAsync());
}
