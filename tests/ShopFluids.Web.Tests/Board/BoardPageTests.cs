using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MudBlazor;
using ShopFluids.Core.Care;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.People;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Board;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Board;

public sealed class BoardPageTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    [Fact]
    public async Task Render_ActionAndNotMeasured_ShowsActionFirstWithWhyAndWhatToDo()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.SumpAsync(Some.Sump(Some.Id(), desk.Shop.AreaId, "S-01", "M-01", walkOrder: 1));
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m));

        var page = await BoardAsync(desk);

        Assert.Equal(["S-07", "S-01"], page.FindAll("tbody .tg").Select(a => a.TextContent));
        var row = page.FindAll("tbody tr")[0];
        Assert.Equal("Action, low", row.QuerySelector("td .v")?.TextContent);
        Assert.Contains("4.0 %", row.QuerySelector(".c-why")?.TextContent, StringComparison.Ordinal);
        Assert.Contains("concentrate", row.QuerySelector(".c-todo")?.TextContent, StringComparison.Ordinal);
        Assert.Equal(Texts.Board_SeeToIt, row.QuerySelector(".c-who button")?.TextContent);
        Assert.Equal("sumps/S-07", row.QuerySelector(".tg")?.GetAttribute("href"));
        Assert.Equal(Texts.Board_StandsEmpty, page.FindAll("tbody tr")[1].QuerySelector(".c-why")?.TextContent.Trim());
    }

    // S-07 and 51 others.
    [Fact]
    public async Task Render_MoreSumpsThanAnybodyReads_ShowsTheFirstAndMoreWithEachPress()
    {
        await using var desk = await DeskContext.OpenAsync();
        for (var n = 100; n < 151; n++)
        {
            await desk.Shop.SumpAsync(Some.Sump(Some.Id(), desk.Shop.AreaId, $"S-{n}", $"M-{n}", walkOrder: n));
        }

        var page = await BoardAsync(desk);
        Assert.Equal(25, page.FindAll("tbody tr").Count);
        Assert.Equal(["Show 25 more of the other 27 sumps"], Buttons());

        await page.FindAll(".more-rows button")[0].ClickAsync(new());
        Assert.Equal(50, page.FindAll("tbody tr").Count);
        Assert.Equal(["Show the other 2 sumps", "Show only the first 25 sumps"], Buttons());
        Assert.Equal("50 of 52 sumps shown", page.Find(".more-rows [role=status]").TextContent);
        desk.JSInterop.VerifyNotInvoke("Blazor._internal.domWrapper.focus");

        // The button that was pressed goes away, and with it what the keyboard was at.
        await page.FindAll(".more-rows button")[0].ClickAsync(new());
        Assert.Equal(52, page.FindAll("tbody tr").Count);
        Assert.Equal(["Show only the first 25 sumps"], Buttons());
        desk.JSInterop.VerifyFocusAsyncInvoke();

        await page.FindAll(".more-rows button")[0].ClickAsync(new());
        Assert.Equal(25, page.FindAll("tbody tr").Count);
        desk.JSInterop.VerifyFocusAsyncInvoke(2);

        IEnumerable<string> Buttons() => page.FindAll(".more-rows button").Select(b => b.TextContent);
    }

    [Fact]
    public async Task Render_MoreSumpsInRangeThanAnybodyReads_ShowsMoreWithAPress()
    {
        await using var desk = await DeskContext.OpenAsync();
        var lot = Some.Lot(Some.Id(), desk.Shop.FluidId, "L-9", litres: 10_000);
        (await desk.Shop.Get<ReceiveLotHandler>().HandleAsync(lot, Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();
        for (var n = 100; n < 301; n++)
        {
            await desk.Shop.SumpAsync(Some.Sump(Some.Id(), desk.Shop.AreaId, $"S-{n}", $"M-{n}", walkOrder: n));
            (await desk.Shop.FillAsync(Some.Fill(Some.Id(), desk.Shop.FluidId, lot.Id, $"S-{n}"))).Done();
            await desk.Shop.StoreAsync(Some.Reading(sump: $"S-{n}"));
        }

        var page = await BoardAsync(desk);
        Assert.Equal(200, page.FindAll(".rest .tags a").Count);
        Assert.Equal("Show the other sump", page.Find(".rest .more-rows button").TextContent);

        await page.Find(".rest .more-rows button").ClickAsync(new());

        Assert.Equal(201, page.FindAll(".rest .tags a").Count);
        Assert.Empty(page.FindAll(".rest .more-rows"));
        desk.JSInterop.VerifyFocusAsyncInvoke();
    }

    // 2 March, 8 in the morning, and 3 in the morning after: the shop day begins at 6.
    [Theory]
    [InlineData(0, false)]
    [InlineData(19, true)]
    public async Task Render_AfterMidnight_SaysWhichShopDayTodayIs(int hoursLater, bool isSaid)
    {
        await using var desk = await DeskContext.OpenAsync();
        desk.Shop.Clock.Advance(TimeSpan.FromHours(hoursLater));

        var page = await BoardAsync(desk);

        Assert.Equal(isSaid, page.Find(".bh .t div").TextContent.Contains("Until 06:00 \"today\" is 2 Mar 2026.", StringComparison.Ordinal));
    }

    // The adjusting is J. Karrow's; the second look is nobody's, and must not look as if it were.
    [Fact]
    public async Task Render_OnlySomeOfTheWorkIsGiven_SaysHowMuchIsNobodys()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m, ph: 8.4m));
        var stop = Xunit.TestContext.Current.CancellationToken;
        var person = Some.Id();
        (await desk.Shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(person, "karrow", "J. Karrow", "round the shop floor 7", [Roles.Operator], "light"), Some.Supervisor, stop)).Done();
        var open = await desk.Shop.ReadAsync(db => db.CareTasks.Where(t => t.State == TaskState.Open).Select(t => new { t.Id, t.Kind }).ToListAsync(stop));
        Assert.Null((await BoardAsync(desk)).Find("tbody .c-who").QuerySelector("div"));

        (await desk.Shop.Get<AssignTaskHandler>().HandleAsync(new AssignTask(open.Single(t => t.Kind == TaskKind.Adjust).Id, person), Some.Supervisor, stop)).Done();

        var who = (await BoardAsync(desk)).Find("tbody .c-who");
        Assert.Equal("J. Karrow", who.QuerySelector("button")?.TextContent);
        Assert.Equal($"{open.Count - 1} given to nobody", who.QuerySelector("div")?.TextContent);
    }

    [Theory]
    [InlineData(3, true)]
    [InlineData(0, false)]
    public async Task Render_RottenEgg_WarnsOfTheGasBesideWhy(int odour, bool isWarned)
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, 2), Some.Typed(ParameterCodes.Odour, odour)));

        var page = await BoardAsync(desk);

        Assert.Equal(isWarned, page.Find("tbody .c-why").TextContent.Contains(Texts.Caution_HydrogenSulphideShort, StringComparison.Ordinal));
    }

    // Closing a flag takes no gas away: what was last smelled there holds until somebody smells again.
    [Fact]
    public async Task Render_FlagOfASmellWasClosed_StillWarnsOfTheGas()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Odour, 3)));
        foreach (var flag in await desk.Shop.ReadAsync(db => db.Flags.ToListAsync(Xunit.TestContext.Current.CancellationToken)))
        {
            (await desk.Shop.Get<CloseFlagHandler>().HandleAsync(new CloseFlag(flag.Id, "Aired"), Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();
        }

        Assert.Contains(Texts.Caution_HydrogenSulphideShort, (await BoardAsync(desk)).Find("tbody .c-why").TextContent, StringComparison.Ordinal);

        desk.Shop.Clock.Advance(TimeSpan.FromHours(1));
        await desk.Shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Odour, 0)) with { TakenAtUtc = desk.Shop.Now });
        Assert.DoesNotContain(Texts.Caution_HydrogenSulphideShort, (await BoardAsync(desk)).Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_DosedSumpInRange_SaysToKeepAwayFromIt()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading());
        (await desk.Shop.Get<NoteDoseHandler>().HandleAsync(Some.Dose(), Some.Operator, isSupervisor: false, Xunit.TestContext.Current.CancellationToken)).Done();

        var page = await BoardAsync(desk);

        Assert.Contains("Keep away until 2 Mar 2026, 12:00: Biocide B-20", page.Find("tbody .c-why").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Answer_LotInQuarantine_TakesItOffTheBoard()
    {
        await using var desk = await DeskContext.OpenAsync();
        (await desk.Shop.Get<QuarantineLotHandler>().HandleAsync(new QuarantineLot(desk.Shop.LotId, "Skin on top"), Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();
        desk.Shop.Clock.Advance(TimeSpan.FromDays(2));
        Assert.Equal(1, await desk.Shop.Get<EscalateFlagsHandler>().HandleAsync(Xunit.TestContext.Current.CancellationToken));

        var page = await BoardAsync(desk);

        Assert.StartsWith("Warning. Lot L-1 of Emulsion A is in quarantine; 188", page.Find(".shopflags p").TextContent, StringComparison.Ordinal);
        Assert.Equal("Unanswered since 2 Mar: with the supervisor", page.Find(".shopflags .esc").TextContent);
        await page.Find(".shopflags button").ClickAsync(new());
        await page.Find(".shopflags textarea").ChangeAsync(new() { Value = "Sent back" });
        await page.Find(".shopflags .reason .pri").ClickAsync(new());
        page.WaitForAssertion(() => Assert.Empty(page.FindAll(".shopflags")), Patience);
    }

    [Fact]
    public async Task Render_NothingSetUp_SaysSoAndShowsTheWay()
    {
        await using var desk = await DeskContext.OpenAsync(isSetUp: false);

        desk.TakeOver();
        var page = desk.Render<BoardPage>();
        page.WaitForElement("section.state h1", Patience);

        Assert.Equal(Texts.Board_EmptyTitle, page.Find("h1").TextContent);
        Assert.Equal("setup/start", page.Find("section.state a").GetAttribute("href"));
    }

    [Fact]
    public async Task Render_EverythingInRange_SaysNothingIsOpenAndListsTheSump()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading());

        var page = await BoardAsync(desk);

        Assert.Equal(Texts.Board_NothingOpen, page.Find("section.state h2").TextContent);
        Assert.StartsWith("S-07", page.Find(".rest .tags a").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll("table"));
    }

    [Fact]
    public async Task Render_DatabaseGone_FailsInWordsAndRetryBringsTheBoard()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m));
        await RenameAsync(desk, "Standings", "Gone");

        desk.TakeOver();
        var page = desk.Render<BoardPage>();
        page.WaitForElement("[role=alert]", Patience);
        Assert.Equal(Texts.Board_Failed, page.Find("[role=alert] h2").TextContent);

        await RenameAsync(desk, "Gone", "Standings");
        await page.Find("[role=alert] button").ClickAsync(new());
        page.WaitForElement("tbody tr", Patience);
    }

    [Fact]
    public async Task News_ReadingStored_AppearsWithoutReloading()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading());
        var page = await BoardAsync(desk);

        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m, takenAt: Some.Start.AddMinutes(1)));
        desk.Shop.Clock.Advance(LiveLook.Throttle);

        page.WaitForAssertion(() => Assert.Equal("S-07", page.Find("tbody .tg").TextContent), Patience);
    }

    [Fact]
    public async Task Look_DatabaseGoneLater_KeepsTheRowsAndSaysFromWhen()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m));
        var page = await BoardAsync(desk);
        await RenameAsync(desk, "Standings", "Gone");

        desk.Shop.Clock.Advance(LiveLook.Regular);

        page.WaitForAssertion(() => Assert.Contains("Last live 08:00", page.Find(".fresh [role=status]").TextContent, StringComparison.Ordinal), Patience);
        Assert.Equal("S-07", page.Find("tbody .tg").TextContent);
    }

    [Fact]
    public async Task Toggle_Count_PutsTheFilterInTheAddress()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m));
        var page = await BoardAsync(desk);

        await page.FindAll(".counts button")[1].ClickAsync(new());

        Assert.EndsWith("?show=warning", desk.Services.GetRequiredService<NavigationManager>().Uri, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_Operator_SeesTheBoardWithoutActs()
    {
        await using var desk = await DeskContext.OpenAsync(isSupervisor: false);
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m));

        var page = await BoardAsync(desk);

        Assert.Single(page.FindAll("tbody tr"));
        Assert.Empty(page.FindAll("tbody button"));
    }

    private static int FocusCount(DeskContext desk) => desk.JSInterop.Invocations.Count(i => i.Identifier == "Blazor._internal.domWrapper.focus");

    private static Task<IRenderedComponent<BoardPage>> BoardAsync(DeskContext desk)
    {
        desk.TakeOver();
        var page = desk.Render<BoardPage>();
        page.WaitForElement(".counts", Patience);
        return Task.FromResult(page);
    }

    private static Task RenameAsync(DeskContext desk, string from, string to) =>
        RawSql.ExecuteAsync(desk.Database, $"ALTER TABLE \"{from}\" RENAME TO \"{to}\"");

    // The filter of the day after tomorrow could wait, but somebody is at the sump for the test anyway.
    [Fact]
    public async Task Render_WorkOfOneVisit_StandsUnderOneHeading()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Test));
        await desk.Shop.StepAsync(Some.Step(TaskKind.ChangeFilter, days: 28, anchor: new DateOnly(2026, 3, 4)));
        await desk.Shop.StepAsync(Some.Step(TaskKind.Skim, days: 28, anchor: new DateOnly(2026, 3, 20)));

        var page = await BoardAsync(desk);

        Assert.Equal("One visit, today, about 20 min", page.Find(".c-todo .vis").TextContent);
        Assert.Equal(2, page.FindAll(".c-todo .tk").Count);
        Assert.Contains("Wed 4 Mar", page.FindAll(".c-todo .tk")[1].TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Dialog_LastWorkOfTheRowDone_ClosesWithoutReachingForTheRow()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Skim));
        await desk.Shop.StoreAsync(Some.Reading());
        desk.Shop.Clock.Advance(TimeSpan.FromDays(1));
        var dialogs = desk.Render<MudDialogProvider>();
        var page = await BoardAsync(desk);

        var opening = page.Find("tbody .c-who button").ClickAsync(new());
        dialogs.WaitForElement(".mud-dialog", Patience);
        await dialogs.FindAll("button").First(b => b.TextContent.Contains(Texts.Board_Done, StringComparison.Ordinal)).ClickAsync(new());
        var before = FocusCount(desk);
        await dialogs.FindAll("button").First(b => b.TextContent.Trim() == Texts.Board_Close).ClickAsync(new());
        await opening;

        page.WaitForAssertion(() => Assert.Empty(page.FindAll("tbody tr")), Patience);
        Assert.Equal(before, FocusCount(desk));
    }
}
