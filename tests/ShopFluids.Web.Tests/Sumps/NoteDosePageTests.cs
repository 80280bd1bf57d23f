using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Sumps;
using ShopFluids.Web.Pages.Sumps.Doses;
using ShopFluids.Web.Tests.Layout;
using ShopFluids.Web.Tests.Setup;
using Xunit;

namespace ShopFluids.Web.Tests.Sumps;

public sealed class NoteDosePageTests
{
    [Fact]
    public async Task Save_BiocideByItsLabel_IsNotedListedAndOnTheSumpsTimeline()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk);
        Fill(page);
        await page.Find("input[type=checkbox]").ChangeAsync(new() { Value = true });

        await page.SaveAsync();

        page.WaitForAssertion(() => Assert.Contains("Noted: 1.2 mL/L. Re-entry from 2 Mar 2026, 12:00.", page.Markup, StringComparison.Ordinal), SetupDesk.Patience);
        var row = page.Find("table.list tbody tr").TextContent;
        Assert.All(new[] { "Biocide B-20", "biocide", "180 mL", "1.5 mL/L", "Smell on Monday", "M. Ostrey" }, said => Assert.Contains(said, row, StringComparison.Ordinal));
        Assert.Equal("", page.ValueOf(DoseFields.Product));
        var sump = desk.Render<SumpPage>(p => p.Add(s => s.Tag, "S-07"));
        sump.WaitForElement(".tl", SetupDesk.Patience);
        Assert.Contains(
            "Dose: 180 mL Biocide B-20 (biocide) for 150.0 L: 1.2 mL/L, label at most 1.5 mL/L. Re-entry from 2 Mar 2026, 12:00. Smell on Monday. M. Ostrey",
            sump.FindAll(".tl li").Select(l => l.TextContent).Single(e => e.Contains("Dose:", StringComparison.Ordinal)),
            StringComparison.Ordinal);
        Assert.Equal("sumps/S-07/dose", sump.FindAll(".sh .acts a").Single(a => a.TextContent == Texts.Dose_Note).GetAttribute("href"));
    }

    [Fact]
    public async Task Save_BiocideWithoutTheTick_AsksForItAndKeepsWhatWasTyped()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk);
        Fill(page);

        await page.SaveAsync();

        Assert.Equal("Confirmation is missing.", page.FaultOf(DoseFields.Safety));
        Assert.Equal(("Biocide B-20", "180"), (page.ValueOf(DoseFields.Product), page.ValueOf(DoseFields.Amount)));
        Assert.Equal(0, await desk.Shop.CountAsync<Dose>());
    }

    [Fact]
    public async Task Save_MoreThanTheLabelAllows_IsSaidWhileTypingAndRefusedWithTheRange()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk);
        Fill(page);
        await page.Find("input[type=checkbox]").ChangeAsync(new() { Value = true });
        Assert.Equal("Comes to 1.2 mL/L. The label allows up to 225 mL here.", page.Find(".sum").TextContent);
        page.Type(DoseFields.Amount, "300");
        Assert.Equal("Comes to 2 mL/L: more than the label allows. Up to 225 mL is accepted here.", page.Find(".sum").TextContent);

        await page.SaveAsync();

        Assert.Equal("Amount given 300 mL is outside the accepted range of 0.01 mL to 225 mL.", page.FaultOf(DoseFields.Amount));
        Assert.Equal(0, await desk.Shop.CountAsync<Dose>());

        // An operator is told who can note it.
        Assert.Contains(Texts.Dose_AgainstAskSupervisor, page.Markup, StringComparison.Ordinal);
        Assert.Empty(page.FindAll($"#f-{DoseFields.AgainstLabel}"));
    }

    [Fact]
    public async Task Save_GivenAllTheSame_IsAskedOfASupervisorNotedAndMarkedEverywhere()
    {
        await using var desk = await OpenAsync(isSupervisor: true);
        var page = Page(desk);
        Fill(page);
        await page.Find("input[type=checkbox]").ChangeAsync(new() { Value = true });
        Assert.Empty(page.FindAll($"#f-{DoseFields.AgainstLabel}"));
        page.Type(DoseFields.Amount, "300");
        await page.SaveAsync();
        Assert.Equal(0, await desk.Shop.CountAsync<Dose>());

        page.Type(DoseFields.AgainstLabel, "Poured twice");
        await page.SaveAsync();

        page.WaitForAssertion(() => Assert.Contains("(!) Against its label: Poured twice.", page.Find("table.list tbody tr").TextContent, StringComparison.Ordinal), SetupDesk.Patience);
        Assert.Empty(page.FindAll($"#f-{DoseFields.AgainstLabel}"));
        Assert.Contains("(!) Against its label: Poured twice.", Timeline(desk).TextContent, StringComparison.Ordinal);
    }

    // The reason was for 300 mL: nobody was told yet that 3000 are twenty times what the label allows.
    [Fact]
    public async Task Save_AmountChangedAfterTheReason_IsRefusedAnewBeforeTheReasonCounts()
    {
        await using var desk = await OpenAsync(isSupervisor: true);
        var page = Page(desk);
        Fill(page);
        await page.Find("input[type=checkbox]").ChangeAsync(new() { Value = true });
        page.Type(DoseFields.Amount, "300");
        await page.SaveAsync();
        page.Type(DoseFields.AgainstLabel, "Poured twice");
        page.Type(DoseFields.Amount, "3000");

        await page.SaveAsync();

        Assert.Contains("3000", page.FaultOf(DoseFields.Amount)?.Replace(",", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal(0, await desk.Shop.CountAsync<Dose>());
        await page.SaveAsync();
        page.WaitForAssertion(() => Assert.Contains("(!) Against its label: Poured twice.", page.Find("table.list tbody tr").TextContent, StringComparison.Ordinal), SetupDesk.Patience);
        Assert.Equal(1, await desk.Shop.CountAsync<Dose>());
    }

    [Fact]
    public async Task StrikeOut_BySupervisor_StaysStruckThroughWithTheReason()
    {
        await using var desk = await OpenAsync(isSupervisor: true);
        (await desk.Shop.Get<NoteDoseHandler>().HandleAsync(Some.Dose(), Some.Operator, isSupervisor: false, Xunit.TestContext.Current.CancellationToken)).Done();
        var page = Page(desk);

        await page.FindAll("table.list button").Single(b => b.TextContent == Texts.Dose_Strike).ClickAsync(new());
        await page.Find("table.list textarea").ChangeAsync(new() { Value = "Wrong sump" });
        await page.Find("table.list .reason .pri").ClickAsync(new());

        page.WaitForAssertion(() => Assert.Contains("by M. Ostrey: Wrong sump", page.Find("tr.struck").TextContent, StringComparison.Ordinal), SetupDesk.Patience);
        Assert.DoesNotContain(page.FindAll("table.list button"), b => b.TextContent == Texts.Dose_Strike);
        var entry = Timeline(desk);
        Assert.Contains("180 mL Biocide B-20", entry.QuerySelector("s")?.TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain("Wrong sump", entry.QuerySelector("s")?.TextContent, StringComparison.Ordinal);
        Assert.Contains("Wrong sump", entry.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task StrikeOut_ByAnOperator_IsNotOffered()
    {
        await using var desk = await OpenAsync();
        (await desk.Shop.Get<NoteDoseHandler>().HandleAsync(Some.Dose(), Some.Operator, isSupervisor: false, Xunit.TestContext.Current.CancellationToken)).Done();

        Assert.Empty(Page(desk).FindAll("table.list button"));
    }

    [Fact]
    public async Task Render_ProductsNotedBefore_AreOfferedOnceEach()
    {
        await using var desk = await OpenAsync();
        foreach (var (product, hours) in new[] { ("Biocide B-20", 0), ("BIOCIDE b-20", 96), ("Defoamer D-3", 0) })
        {
            (await desk.Shop.Get<NoteDoseHandler>().HandleAsync(Some.Dose() with { Product = product, GivenAtUtc = Some.Start.AddHours(-hours) }, Some.Operator, isSupervisor: false, Xunit.TestContext.Current.CancellationToken)).Done();
        }

        var page = Page(desk);

        Assert.Equal(["Biocide B-20", "Defoamer D-3"], page.FindAll("datalist option").Select(o => o.GetAttribute("value")));
        Assert.Equal(page.Find("datalist").Id, page.Find($"#f-{DoseFields.Product}").GetAttribute("list"));
    }

    [Fact]
    public async Task Choose_AmountInGramsUnderALabelByVolume_AsksForTheDensity()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk);
        Assert.Empty(page.FindAll($"#f-{DoseFields.Density}"));
        Assert.Empty(page.FindAll("input[type=checkbox]"));

        page.Type(DoseFields.Unit, nameof(DoseUnit.Gram));

        Assert.NotEmpty(page.FindAll($"#f-{DoseFields.Density}"));
        Assert.Equal("g", page.Find($"#f-{DoseFields.Amount}-unit").TextContent);
    }

    [Fact]
    public async Task Render_AnySump_ShowsTheCautionsBeforeTheForm()
    {
        await using var desk = await OpenAsync();

        var said = Page(desk).FindAll(".mind li").Select(l => l.TextContent).ToList();

        Assert.Equal(DoseSentences.Cautions("Binder at the stores"), said);
        Assert.Contains("Binder at the stores", string.Join(' ', said), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_UnknownSump_SaysSo()
    {
        await using var desk = await OpenAsync();

        var page = desk.Render<NoteDosePage>(p => p.Add(d => d.Tag, "S-99"));

        page.WaitForAssertion(() => Assert.Contains("There is no sump S-99.", page.Markup, StringComparison.Ordinal), SetupDesk.Patience);
    }

    private static void Fill(IRenderedComponent<NoteDosePage> page)
    {
        Assert.Equal("150", page.ValueOf(DoseFields.Volume));
        page.Type(DoseFields.Product, "Biocide B-20");
        page.Type(DoseFields.Kind, nameof(DoseKind.Biocide));
        page.Type(DoseFields.Amount, "180");
        page.Type(DoseFields.Reason, "Smell on Monday");
        page.Type(DoseFields.LabelMost, "1,5");
        page.Type(DoseFields.LabelHours, "96");
        page.Type(DoseFields.ReentryHours, "4");
    }

    private static AngleSharp.Dom.IElement Timeline(DeskContext desk)
    {
        var sump = desk.Render<SumpPage>(p => p.Add(s => s.Tag, "S-07"));
        sump.WaitForElement(".tl", SetupDesk.Patience);
        return sump.FindAll(".tl li").Single(e => e.TextContent.Contains("Dose:", StringComparison.Ordinal));
    }

    private static async Task<DeskContext> OpenAsync(bool isSupervisor = false)
    {
        var desk = await SetupDesk.OpenAsync(isSupervisor: isSupervisor);
        desk.Services.AddSingleton(desk.Shop.Get<StrikeDoseHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<NoteDoseHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<DosesQuery>());
        await desk.Shop.StoreAsync(Some.Reading(levelMm: 300));
        return desk;
    }

    private static IRenderedComponent<NoteDosePage> Page(DeskContext desk)
    {
        var page = desk.Render<NoteDosePage>(p => p.Add(d => d.Tag, "S-07"));
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }
}
