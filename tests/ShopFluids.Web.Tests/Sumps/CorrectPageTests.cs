using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Readings.Corrections;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Components.Shared;
using ShopFluids.Web.Pages.Sumps;
using ShopFluids.Web.Pages.Sumps.Corrections;
using ShopFluids.Web.Tests.Layout;
using ShopFluids.Web.Tests.Setup;
using Xunit;

namespace ShopFluids.Web.Tests.Sumps;

public sealed class CorrectPageTests
{
    [Fact]
    public async Task Render_StoredReading_ShowsEveryValueWithItsRangeAndThatNothingChangesYet()
    {
        await using var desk = await OpenAsync();
        var reading = await StoredAsync(desk, brix: 4.0m);

        var page = Page(desk, reading);

        Assert.Equal("Correct a reading of S-07", page.Find("h1").TextContent);
        Assert.Equal("4", page.ValueOf("measurements.concentration"));
        Assert.Contains("Stored: 4 Brix read, gives 4.0 %, Action, low.", page.Find("fieldset.correct").TextContent, StringComparison.Ordinal);
        Assert.Contains("Accepted: 0 to 400 mm", page.Markup, StringComparison.Ordinal);
        Assert.Contains(Texts.Correct_NothingElse, Effect(page), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Type_AnotherValue_ShowsVerdictsFlagsAndTasksBeforeSaving()
    {
        await using var desk = await OpenAsync();
        var reading = await StoredAsync(desk, brix: 4.0m);
        var page = Page(desk, reading);

        page.Type("measurements.concentration", "8,0");
        desk.Shop.Clock.Advance(TypingPause.Length);

        page.WaitForAssertion(() => Assert.Contains("8.0 %", Effect(page), StringComparison.Ordinal), SetupDesk.Patience);
        var row = page.FindAll("table.plain tbody tr")[0];
        Assert.Contains(Texts.Verdict_ActionLow, row.Children[1].TextContent, StringComparison.Ordinal);
        Assert.Contains(Texts.Verdict_InRange, row.Children[2].TextContent, StringComparison.Ordinal);
        Assert.Contains("Flag ends: ", Effect(page), StringComparison.Ordinal);
        Assert.Contains("Task withdrawn: ", Effect(page), StringComparison.Ordinal);
        Assert.Equal(1, await desk.Shop.CountAsync<Reading>());
    }

    [Fact]
    public async Task Save_WithReason_SupersedesTheReadingAndGoesBackToTheSump()
    {
        await using var desk = await OpenAsync();
        var reading = await StoredAsync(desk, brix: 4.0m);
        var page = Page(desk, reading);
        page.Type("measurements.concentration", "8");
        page.Type("correctionReason", "Read the wrong scale");

        await page.SaveAsync();

        var stored = await desk.Shop.ReadAsync(db => db.Readings.Include(r => r.Measurements).SingleAsync(r => r.SupersedesId == reading));
        Assert.Equal(("Read the wrong scale", Some.Start, Some.Supervisor.PersonId), (stored.CorrectionReason, stored.TakenAtUtc, stored.PersonId));
        Assert.Equal([8, 300, 9], stored.Measurements.OrderBy(m => m.Parameter).Select(m => m.Value));
        Assert.EndsWith("/sumps/S-07", desk.Services.GetRequiredService<NavigationManager>().Uri, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Save_WithoutReasonOrOutOfRange_SaysBothAtTheirFieldsAndKeepsWhatWasTyped()
    {
        await using var desk = await OpenAsync();
        var reading = await StoredAsync(desk, brix: 4.0m);
        var page = Page(desk, reading);
        page.Type("measurements.level", "900");

        await page.SaveAsync();

        Assert.Contains("400", page.FaultOf("measurements.level"), StringComparison.Ordinal);
        Assert.Equal("Reason of the correction is missing.", page.FaultOf("correctionReason"));
        Assert.Equal("900", page.ValueOf("measurements.level"));
        Assert.Equal(1, await desk.Shop.CountAsync<Reading>());
    }

    [Fact]
    public async Task Save_UnlikelyValue_AsksFirstAndStoresTheAnswer()
    {
        await using var desk = await OpenAsync();
        var reading = await StoredAsync(desk, brix: 8.0m);
        var page = Page(desk, reading);
        page.Type("measurements.concentration", "22");
        page.Type("correctionReason", "Slip");

        await page.SaveAsync();

        Assert.Equal(1, await desk.Shop.CountAsync<Reading>());
        Assert.Contains("unlikely", page.FaultOf("measurements.concentration"), StringComparison.Ordinal);
        Assert.Contains("Is 22 what the scale shows?", page.Find(".asked").TextContent, StringComparison.Ordinal);
        await page.Find(".asked button").ClickAsync(new());
        Assert.Empty(page.FindAll(".asked"));
        await page.SaveAsync();
        Assert.True(await desk.Shop.ReadAsync(db => db.Readings.Where(r => r.SupersedesId == reading).SelectMany(r => r.Measurements).AnyAsync(m => m.Parameter == "concentration" && m.IsConfirmed)));
    }

    [Fact]
    public async Task Save_NothingChanged_IsRefused()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk, await StoredAsync(desk, brix: 8.0m));
        page.Type("correctionReason", "Slip");

        await page.SaveAsync();

        Assert.Contains(Texts.Error_NothingChanged, page.Find(".faults").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Save_ValueEmptiedAndAnotherAdded_LeavesOutAndTakesIn()
    {
        await using var desk = await OpenAsync();
        var reading = await StoredAsync(desk, brix: 8.0m);
        var page = Page(desk, reading);
        page.Type("measurements.ph", "");
        page.Find(".addrow select").Change("odour");
        page.Find("#f-measurements-odour").Change("2");
        page.Type("correctionReason", "Typed into the wrong row");

        await page.SaveAsync();

        var stored = await desk.Shop.ReadAsync(db => db.Readings.Where(r => r.SupersedesId == reading).SelectMany(r => r.Measurements).Select(m => m.Parameter).ToListAsync());
        Assert.Equal(["concentration", "level", "odour"], stored.Order());
    }

    [Fact]
    public async Task Render_ReadingCorrectedBefore_SaysWhyAndTheWayBack()
    {
        await using var desk = await OpenAsync();
        var wrong = await StoredAsync(desk, brix: 4.0m);
        await desk.Shop.StoreAsync(Some.Reading(brix: 8.0m, supersedes: wrong, reason: "Slip"));

        var page = Page(desk, wrong);

        Assert.Contains(Texts.Error_AlreadySuperseded, page.Markup, StringComparison.Ordinal);
        Assert.Equal("sumps/S-07", page.Find("section.state a").GetAttribute("href"));
        Assert.Empty(page.FindAll("form"));
    }

    [Theory]
    [InlineData(true, 1)]
    [InlineData(false, 0)]
    public async Task Timeline_OffersCorrectionToSupervisorsOfReadingsThatCount(bool isSupervisor, int links)
    {
        await using var desk = await DeskContext.OpenAsync(isSupervisor);
        var wrong = await StoredAsync(desk, brix: 4.0m);
        var right = await desk.Shop.StoreAsync(Some.Reading(brix: 8.0m, supersedes: wrong, reason: "Slip"));

        var page = desk.Render<SumpPage>(p => p.Add(s => s.Tag, "S-07"));
        page.WaitForElement(".sump", SetupDesk.Patience);

        var found = page.FindAll(".tl a").Select(a => a.GetAttribute("href")).ToList();
        Assert.Equal(links, found.Count);
        Assert.All(found, href => Assert.Equal($"sumps/S-07/readings/{right.ReadingId:D}/correct", href));
        Assert.Single(page.FindAll("figure.trend")[0].QuerySelectorAll("td s"));
    }

    private static async Task<DeskContext> OpenAsync()
    {
        var desk = await DeskContext.OpenAsync();
        desk.Services.AddSingleton(desk.Shop.Get<CorrectionPageQuery>());
        desk.Services.AddSingleton(desk.Shop.Get<PreviewReadingQuery>());
        desk.Services.AddSingleton(desk.Shop.Get<RecordReadingHandler>());
        return desk;
    }

    private static async Task<Guid> StoredAsync(DeskContext desk, decimal brix) => (await desk.Shop.StoreAsync(Some.Reading(brix: brix))).ReadingId;

    private static string Effect(IRenderedComponent<CorrectPage> page) => page.Find("[aria-labelledby=effect-title]").TextContent;

    private static IRenderedComponent<CorrectPage> Page(DeskContext desk, Guid reading)
    {
        var page = desk.Render<CorrectPage>(p => p.Add(c => c.Tag, "S-07").Add(c => c.Id, reading));
        page.WaitForElement("h1", SetupDesk.Patience);
        return page;
    }
}
