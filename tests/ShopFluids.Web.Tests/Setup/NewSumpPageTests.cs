using Bunit;
using Bunit.TestDoubles;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Setup.Sumps;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

public sealed class NewSumpPageTests
{
    [Fact]
    public async Task Save_NothingTyped_SaysEveryMissingFieldAtOnce()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);

        await page.SaveAsync();

        foreach (var field in new[] { "machineTag", "machineName", "weeklyHours", "sumpTag", "lengthMm", "widthMm", "brimMm", "fullMarkMm", "pumpIntakeMm" })
        {
            Assert.EndsWith("is missing.", page.FaultOf(field) ?? field, StringComparison.Ordinal);
            Assert.Equal("true", page.Find($"#f-{field}").GetAttribute("aria-invalid"));
            Assert.Contains($"f-{field}-fault", page.Find($"#f-{field}").GetAttribute("aria-describedby"), StringComparison.Ordinal);
        }

        Assert.Equal(9, page.FindAll(".faults li").Count);
    }

    [Fact]
    public async Task Save_FullMarkOverTheBrim_RefusesAtTheFieldAndKeepsWhatWasTyped()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        Fill(page);
        page.Type("fullMarkMm", "412");

        await page.SaveAsync();

        Assert.Equal("Full mark 412 mm is outside the accepted range of 1 mm to 400 mm.", page.FaultOf("fullMarkMm"));
        Assert.Equal("412", page.ValueOf("fullMarkMm"));
        Assert.Equal("M-09", page.ValueOf("machineTag"));
        Assert.Equal("1000", page.ValueOf("lengthMm"));
        Assert.Equal(page.FaultOf("fullMarkMm"), page.Find(".faults li").TextContent.Trim());
        Assert.Null((await desk.Shop.SetupAsync()).FindSump("S-09"));
    }

    [Fact]
    public async Task Save_SecondMachineHasTheTagOfAnother_RefusesAtTheSecond()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        Fill(page);
        await page.FindAll("button").Single(b => b.TextContent == Texts.Setup_MachineMore).ClickAsync(new());
        page.Type("machineTag.1", "M-07");
        page.Type("machineName.1", "Grinder");
        page.Type("weeklyHours.1", "40");

        await page.SaveAsync();

        Assert.Null(page.FaultOf("machineTag"));
        Assert.Equal("Machine tag: M-07 is taken already.", page.FaultOf("machineTag.1"));
    }

    [Fact]
    public async Task Save_Good_StoresTheSumpAndShowsItInTheList()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        Fill(page);

        await page.SaveAsync();

        var setup = await desk.Shop.SetupAsync();
        var sump = Assert.IsType<Core.Sumps.Sump>(setup.FindSump("S-09"));
        Assert.Equal(170, sump.Geometry.VolumeLitresAt((double)sump.FullMarkMm), 6);
        Assert.Equal("M-09", Assert.Single(setup.MachinesOf(sump)).Tag);
        Assert.EndsWith("setup/sumps?added=S-09", desk.Services.GetRequiredService<NavigationManager>().Uri, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Save_PastedTable_StoresIt()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        Fill(page);
        page.Find("#f-shape").Change("StrappingTable");
        page.Type("strappingTable", "0\t0\n100\t40,5\n400\t180");

        await page.SaveAsync();

        var sump = Assert.IsType<Core.Sumps.Sump>((await desk.Shop.SetupAsync()).FindSump("S-09"));
        Assert.Equal([0m, 40.5m, 180m], sump.Shape.Points.Select(p => p.VolumeLitres));
        Assert.Equal(400, sump.Shape.BrimMm);
    }

    [Fact]
    public async Task Drawing_ShapeAndMarksTyped_SaysTheVolumeAtTheFullMark()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        Assert.Empty(page.FindAll(".sumpfig svg"));

        Fill(page);

        Assert.StartsWith("170.0 L", page.Find(".sumpfig figcaption").TextContent.Trim(), StringComparison.Ordinal);
        Assert.Contains("Pump intake 60 mm, 30.0 L", page.Find(".sumpfig svg").GetAttribute("aria-label"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Leave_WithUnsavedChanges_AsksInPlaceAndStays()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Type("machineTag", "M-09");
        var navigation = (BunitNavigationManager)desk.Services.GetRequiredService<NavigationManager>();

        await page.InvokeAsync(() => navigation.NavigateTo("board"));

        page.WaitForElement("[role=alertdialog]", SetupDesk.Patience);
        Assert.Equal(NavigationState.Prevented, navigation.History.First().State);
        await page.FindAll("[role=alertdialog] button")[0].ClickAsync(new());
        Assert.Empty(page.FindAll("[role=alertdialog]"));
        Assert.Equal("M-09", page.ValueOf("machineTag"));
    }

    [Fact]
    public async Task Save_RightTakenAwayMeanwhile_StoresNothing()
    {
        await using var desk = await SetupDesk.OpenAsync(isSupervisor: false);
        var page = Page(desk);
        Fill(page);

        await page.SaveAsync();

        Assert.Equal(Texts.Setup_MayNot, page.Find(".faults li").TextContent.Trim());
        Assert.Null((await desk.Shop.SetupAsync()).FindSump("S-09"));
    }

    [Fact]
    public async Task Render_NoArea_ShowsTheWayToOne()
    {
        await using var desk = await SetupDesk.OpenAsync(isSetUp: false);

        var page = desk.Render<NewSumpPage>();
        page.WaitForElement("section.state h2", SetupDesk.Patience);

        Assert.Equal(Texts.Setup_NoAreaTitle, page.Find("section.state h2").TextContent);
        Assert.Equal("setup/areas", page.Find("section.state a").GetAttribute("href"));
    }

    private static IRenderedComponent<NewSumpPage> Page(DeskContext desk)
    {
        var page = desk.Render<NewSumpPage>();
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }

    private static void Fill(IRenderedComponent<NewSumpPage> page)
    {
        page.Type("machineTag", "M-09");
        page.Type("machineName", "Turning centre");
        page.Type("weeklyHours", "60");
        page.Type("sumpTag", "S-09");
        page.Type("lengthMm", "1000");
        page.Type("widthMm", "500");
        page.Type("brimMm", "400");
        page.Type("fullMarkMm", "340");
        page.Type("pumpIntakeMm", "60");
    }
}
