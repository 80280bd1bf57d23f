using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Care;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Pictures;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Sumps;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Sumps;

public sealed class SumpPageTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    [Fact]
    public async Task Render_SumpInAction_ShowsFiguresFlagTaskAndTimeline()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Test));
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m, note: "smells"));

        var page = Page(desk, "s-07");

        Assert.Equal("S-07", page.Find("h1").TextContent);
        var figures = page.FindAll(".stand .f").Select(f => f.TextContent.Trim()).ToList();
        Assert.StartsWith("4.0", figures[0], StringComparison.Ordinal);
        Assert.StartsWith("9.0", figures[1], StringComparison.Ordinal);
        Assert.StartsWith("150.0", figures[2], StringComparison.Ordinal);
        Assert.StartsWith("10", figures[3], StringComparison.Ordinal);
        Assert.Contains("action limit", page.Find(".flag").TextContent, StringComparison.Ordinal);
        Assert.Contains("concentrate", page.Find(".row.task").TextContent, StringComparison.Ordinal);
        Assert.Contains("note: smells", page.Find(".tl li").TextContent, StringComparison.Ordinal);
        Assert.Equal(3, page.FindAll("figure.trend svg[role=img]").Count);
        Assert.Equal("sheets/sumps/S-07/history.pdf", page.FindAll(".sh .acts a")[0].GetAttribute("href"));
        Assert.Equal("enter/S-07", page.Find(".sh .acts a.pri").GetAttribute("href"));
    }

    [Fact]
    public async Task Render_RedatedAndCorrected_TellsTheNewDayAndWhoTookTheReading()
    {
        var stop = Xunit.TestContext.Current.CancellationToken;
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Skim));
        var wrong = Some.Reading(ph: 9.9m);
        (await desk.Shop.RecordAsync(wrong, Some.Supervisor)).Done();
        (await desk.Shop.RecordAsync(Some.Reading(supersedes: wrong.Id, reason: "Misread"), Some.Supervisor)).Done();
        var skim = await desk.Shop.ReadAsync(db => db.CareTasks.Where(t => t.Kind == TaskKind.Skim).Select(t => t.Id).SingleAsync(stop));
        (await desk.Shop.Get<RedateTaskHandler>().HandleAsync(new RedateTask(skim, new DateOnly(2026, 3, 12), "Belt is on order"), Some.Supervisor, stop)).Done();

        var told = Page(desk, "S-07").FindAll(".tl li").Select(l => l.TextContent).ToList();

        Assert.Contains(told, t => t.Contains("from 2 Mar 2026 to 12 Mar 2026. Belt is on order.", StringComparison.Ordinal));
        Assert.Contains(told, t => t.Contains("pH 9.9, 300 mm. M. Ostrey superseded: Misread", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Render_DosedWithReentry_SaysToKeepAwayUntilItIsOver()
    {
        await using var desk = await DeskContext.OpenAsync();
        (await desk.Shop.Get<NoteDoseHandler>().HandleAsync(Some.Dose(), Some.Operator, isSupervisor: false, Xunit.TestContext.Current.CancellationToken)).Done();

        Assert.Contains("12:00: Biocide B-20", Page(desk, "S-07").Find(".sh .id").TextContent, StringComparison.Ordinal);

        desk.Shop.Clock.Advance(TimeSpan.FromHours(4));
        Assert.DoesNotContain("Keep away", Page(desk, "S-07").Find(".sh .id").TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(3, true)]
    [InlineData(0, false)]
    public async Task Render_LastSmell_WarnsOfTheGasBesideTheName(int odour, bool isWarned)
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Odour, odour)));

        Assert.Equal(isWarned, Page(desk, "S-07").Find(".sh .id").TextContent.Contains(Texts.Caution_HydrogenSulphideShort, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Render_ReadingsWithPhotos_ShowsTheLatestSixAndAllWhenAsked()
    {
        await using var desk = await DeskContext.OpenAsync();
        for (var hour = 7; hour >= 1; hour--)
        {
            await desk.Shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddHours(-hour)) with { Photo = SamplePicture.Clean(SamplePicture.TalkativeJpeg(6)) });
        }

        var page = Page(desk, "S-07");

        var photos = page.FindAll(".shots img");
        Assert.Equal(6, photos.Count);
        Assert.Equal("turn6", photos[0].ClassName);
        Assert.StartsWith("Photo of S-07, 2 Mar", photos[0].GetAttribute("alt"), StringComparison.Ordinal);
        Assert.EndsWith("07:00", photos[0].GetAttribute("alt"), StringComparison.Ordinal);
        var all = page.Find("section[aria-labelledby=photos-title] button");
        Assert.Equal("false", all.GetAttribute("aria-expanded"));
        all.Click();
        Assert.Equal(7, page.FindAll(".shots img").Count);
    }

    [Fact]
    public async Task Render_SumpInAction_FoldsWhatMayBeBehindItBesideTheFlag()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m));

        var causes = Page(desk, "S-07").Find("details.causes-fold");

        Assert.False(causes.HasAttribute("open"));
        Assert.Contains(Texts.Pattern_CauseWeakTopUp, causes.TextContent, StringComparison.Ordinal);
        Assert.Contains(Texts.Pattern_SourceMemory, causes.TextContent, StringComparison.Ordinal);
        Assert.Equal("patterns?sump=S-07", causes.QuerySelector("a")?.GetAttribute("href"));
    }

    [Fact]
    public async Task Render_SumpInRange_NamesNoCauses()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading());

        Assert.Empty(Page(desk, "S-07").FindAll("details.causes-fold"));
    }

    [Fact]
    public async Task Render_SupersededReading_IsStruckThroughWithItsReason()
    {
        await using var desk = await DeskContext.OpenAsync();
        var wrong = Some.Reading(brix: 12.4m, takenAt: Some.Start.AddMinutes(-30));
        await desk.Shop.StoreAsync(wrong);
        await desk.Shop.StoreAsync(Some.Reading(brix: 8.3m, takenAt: Some.Start.AddMinutes(-20), supersedes: wrong.Id, reason: "typed the percentage"));

        var page = Page(desk, "S-07");

        Assert.Contains("12.4 %", page.Find(".tl s").TextContent, StringComparison.Ordinal);
        Assert.Contains("typed the percentage", page.FindAll(".tl li").Single(l => l.QuerySelector("s") is not null).TextContent, StringComparison.Ordinal);
        Assert.Equal(2, page.FindAll("figure.trend")[0].QuerySelectorAll("line.c-old").Length);
    }

    [Fact]
    public async Task Render_FlagGaveWayToAWorse_IsReplacedNotCleared()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 6.5m, takenAt: Some.Start.AddMinutes(-30)));
        await desk.Shop.StoreAsync(Some.Reading(brix: 4m));

        var page = Page(desk, "S-07");

        var entries = page.FindAll(".tl li").Select(l => l.TextContent).ToList();
        Assert.Contains(entries, e => e.Contains("6.5 %", StringComparison.Ordinal) && e.Contains("Replaced by Action, low: Concentration 4.0 %", StringComparison.Ordinal));
        Assert.DoesNotContain(entries, e => e.Contains("Flag cleared", StringComparison.Ordinal));
    }

    // What was taken out first carries the id of the addition: both stand in the timeline, side by side.
    [Fact]
    public async Task Render_AdditionAfterTakingOut_ShowsBothAndKeepsItsCircuitOnAllEntries()
    {
        await using var desk = await DeskContext.OpenAsync();
        var outcome = await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m, levelMm: 250));
        (await desk.Shop.AddAsync(Some.Addition(desk.Shop.LotId, water: 30, concentrate: 5, removed: 10, readingId: outcome.ReadingId))).Done();
        for (var hour = 1; hour <= 12; hour++)
        {
            desk.Shop.Clock.Advance(TimeSpan.FromHours(1));
            await desk.Shop.StoreAsync(Some.Reading(brix: 8.0m, takenAt: desk.Shop.Now));
        }

        var page = Page(desk, "S-07");
        await page.Find(".panel [aria-expanded=false]").ClickAsync(new());

        var entries = page.FindAll(".tl li").Select(l => l.TextContent).ToList();
        Assert.Contains(entries, e => e.Contains("30.0 L", StringComparison.Ordinal) && e.Contains("5.0 L", StringComparison.Ordinal));
        Assert.Contains(entries, e => e.Contains("10.0 L", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Render_RottenEgg_ItsFlagWarnsOfTheGas()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, 2), Some.Typed(ParameterCodes.Odour, 3)));

        var flags = Page(desk, "S-07").FindAll(".flag");

        Assert.Single(flags, f => f.TextContent.Contains(Texts.Caution_HydrogenSulphideShort, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Render_FlagReadAgainBeyond_SaysWhatItWasRaisedWithAndTheLatest()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.4m, takenAt: Some.Start.AddHours(-2)));
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.1m));

        var flag = Page(desk, "S-07").Find(".flag").TextContent;

        Assert.Contains("4.4 %", flag, StringComparison.Ordinal);
        Assert.Contains("Latest: 4.1 %.", flag, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_AdjustmentDoneWithOtherAmounts_SaysNoRecipe()
    {
        await using var desk = await DeskContext.OpenAsync();
        var outcome = await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m, levelMm: 250));
        Assert.NotNull(outcome.Recipe);
        (await desk.Shop.AddAsync(Some.Addition(desk.Shop.LotId, water: 3, concentrate: 1, readingId: outcome.ReadingId))).Done();

        var done = Page(desk, "S-07").FindAll(".tl li").Select(l => l.TextContent).Single(e => e.Contains("Task done", StringComparison.Ordinal));

        Assert.DoesNotContain(" L", done, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_TwoFullReadings_SaysWhereTheFluidGoesWithGiveOrTake()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 8.0m, levelMm: 300, takenAt: Some.Start.AddDays(-8)));
        await desk.Shop.StoreAsync(Some.Reading(brix: 10.0m, levelMm: 240, takenAt: Some.Start.AddDays(-1)));

        var panel = Page(desk, "S-07").Find("[aria-labelledby=losses-title]");

        var evaporation = panel.QuerySelectorAll("tbody tr")[0].QuerySelectorAll("td").Select(c => c.TextContent).ToList();
        Assert.StartsWith("4.3 ± ", evaporation[0], StringComparison.Ordinal);
        Assert.StartsWith("0.38 ± ", evaporation[1], StringComparison.Ordinal);
        Assert.StartsWith("30.0 ± ", evaporation[2], StringComparison.Ordinal);
        Assert.Contains("80 h a week", panel.TextContent, StringComparison.Ordinal);
        Assert.Contains("150 mg/L", panel.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_ByTheLinkOfAFlag_GoesToTheLosses()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading());
        desk.Services.GetRequiredService<NavigationManager>().NavigateTo("sumps/S-07#losses-title");

        Page(desk, "S-07");

        desk.JSInterop.VerifyFocusAsyncInvoke();
    }

    [Fact]
    public async Task Render_NoteWithTheLastReading_StandsWithTheFlags()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddDays(-1), note: "hose left on"));
        var page = Page(desk, "S-07");
        Assert.Contains("hose left on", page.Find("[aria-labelledby=flags-title]").TextContent, StringComparison.Ordinal);

        await desk.Shop.StoreAsync(Some.Reading());

        Assert.DoesNotContain("hose left on", Page(desk, "S-07").Find("[aria-labelledby=flags-title]").TextContent, StringComparison.Ordinal);
    }

    // 60 L of water went in four days; 35 L came in the next four: 25 L went over all.
    [Fact]
    public async Task Render_WaterGainedWithinABalanceThatCloses_SaysSoAndTheFlagLeadsThere()
    {
        await using var desk = await DeskContext.OpenAsync();
        foreach (var (days, brix, level) in new[] { (-8, 8.0m, 300), (-4, 10.0m, 240), (0, 8.7m, 275) })
        {
            await desk.Shop.StoreAsync(Some.Reading(brix: brix, levelMm: level, takenAt: Some.Start.AddDays(days)));
        }

        var page = Page(desk, "S-07");

        Assert.Contains(Texts.Losses_ClosesInAll, page.Find("[aria-labelledby=losses-title]").TextContent, StringComparison.Ordinal);
        Assert.Equal(Texts.Losses_Title, page.Find("[aria-labelledby=flags-title] a[href='sumps/S-07#losses-title']").TextContent);
    }

    [Fact]
    public async Task Render_OneReading_SaysWhatIsMissingForTheBalance()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading());

        var panel = Page(desk, "S-07").Find("[aria-labelledby=losses-title]");

        Assert.Contains("so far: 1", panel.TextContent, StringComparison.Ordinal);
        Assert.Contains(Texts.Losses_NoLosses, panel.TextContent, StringComparison.Ordinal);
        Assert.Null(panel.QuerySelector("table"));
    }

    [Fact]
    public async Task Render_UnknownTag_SaysSo()
    {
        await using var desk = await DeskContext.OpenAsync();

        var page = desk.Render<SumpPage>(p => p.Add(s => s.Tag, "S-99"));
        page.WaitForElement("section.state h1", Patience);

        Assert.Equal("There is no sump S-99", page.Find("h1").TextContent);
        Assert.Equal("sumps", page.Find("section.state a").GetAttribute("href"));
    }

    [Fact]
    public async Task Render_NothingMeasured_SaysNotMeasuredAndDrawsEmptyCharts()
    {
        await using var desk = await DeskContext.OpenAsync();

        var page = Page(desk, "S-07");

        Assert.Equal(Texts.Verdict_NotMeasured, page.Find(".stand .v").TextContent);
        Assert.Equal(3, page.FindAll("figure.trend").Count);
        Assert.Contains(Texts.Sump_NoFlags, page.Markup, StringComparison.Ordinal);
    }

    private static IRenderedComponent<SumpPage> Page(DeskContext desk, string tag)
    {
        var page = desk.Render<SumpPage>(p => p.Add(s => s.Tag, tag));
        page.WaitForElement(".sump", Patience);
        return page;
    }
}
