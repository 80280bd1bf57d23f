using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Setup.Basics;
using ShopFluids.Web.Pages.Setup.Fluids;
using ShopFluids.Web.Pages.Setup.Machines;
using ShopFluids.Web.Pages.Setup.Sumps;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

/// <summary>Pages that change what is set up: two people at once see both versions.</summary>
public sealed class ChangePagesTests
{
    [Fact]
    public async Task Machine_Saved_IsChangedAndCanBeSavedAgain()
    {
        await using var desk = await OpenAsync();
        var page = Machine(desk);
        Assert.Equal("80", page.ValueOf("weeklyHours"));

        page.Type("weeklyHours", "62,5");
        await page.SaveAsync();
        page.Type("machineName", "Lathe");
        await page.SaveAsync();

        Assert.Empty(page.FindAll(".faults"));
        var machine = Assert.Single((await desk.Shop.SetupAsync()).Machines);
        Assert.Equal((62.5m, "Lathe"), (machine.WeeklyHours, machine.Name));
    }

    [Fact]
    public async Task Machine_ChangedMeanwhile_ShowsBothVersionsAndKeepsMine()
    {
        await using var desk = await OpenAsync();
        var page = Machine(desk);
        page.Type("weeklyHours", "62");
        await OtherChangesMachineAsync(desk);

        await page.SaveAsync();

        Assert.Equal(["62", "40"], Row(page, "Running hours a week"));
        Assert.Equal("62", page.ValueOf("weeklyHours"));
        Assert.Contains(page.FindAll(".conflict tbody th"), h => h.TextContent == Texts.Setup_MachineKind);
        await page.FindAll(".conflict button")[0].ClickAsync(new());
        Assert.Empty(page.FindAll(".conflict"));
        await page.SaveAsync();
        Assert.Equal(62m, Assert.Single((await desk.Shop.SetupAsync()).Machines).WeeklyHours);
    }

    [Fact]
    public async Task Machine_ChangedMeanwhile_TakesWhatIsStored()
    {
        await using var desk = await OpenAsync();
        var page = Machine(desk);
        page.Type("weeklyHours", "62");
        await OtherChangesMachineAsync(desk);
        await page.SaveAsync();

        await page.FindAll(".conflict button")[1].ClickAsync(new());

        Assert.Equal(("40", "Grinder"), (page.ValueOf("weeklyHours"), page.ValueOf("machineName")));
        Assert.Equal(40m, Assert.Single((await desk.Shop.SetupAsync()).Machines).WeeklyHours);
    }

    [Fact]
    public async Task Machine_Unknown_SaysSo()
    {
        await using var desk = await OpenAsync();

        var page = desk.Render<EditMachinePage>(p => p.Add(m => m.Tag, "M-99"));
        page.WaitForElement("section.state h2", SetupDesk.Patience);

        Assert.Equal(Texts.Error_MachineNotFound, page.Find("section.state h2").TextContent);
    }

    [Fact]
    public async Task Fluid_OutOfRange_NamesTheRangeAndKeepsWhatWasTyped()
    {
        await using var desk = await OpenAsync();
        var page = desk.Render<EditFluidPage>(p => p.Add(f => f.Id, desk.Shop.FluidId));
        page.WaitForElement("form", SetupDesk.Patience);

        page.Type("refractometerFactor", "12");
        await page.SaveAsync();

        Assert.Contains("10", page.FaultOf("refractometerFactor"), StringComparison.Ordinal);
        Assert.Equal("12", page.ValueOf("refractometerFactor"));
        page.Type("refractometerFactor", "1.4");
        await page.SaveAsync();
        Assert.Equal(1.4m, (await desk.Shop.SetupAsync()).Fluid(desk.Shop.FluidId).RefractometerFactor);
    }

    [Fact]
    public async Task Fluid_ChangedMeanwhile_ShowsBothVersions()
    {
        await using var desk = await OpenAsync();
        var page = desk.Render<EditFluidPage>(p => p.Add(f => f.Id, desk.Shop.FluidId));
        page.WaitForElement("form", SetupDesk.Patience);
        var seen = (await desk.Shop.SetupAsync()).Fluid(desk.Shop.FluidId);
        var data = new Core.Fluids.FluidData(seen.Name, seen.Kind, 1.2m, seen.TitrationFactor, seen.TargetPercent, seen.PremixMinimumPercent, seen.PremixMaximumPercent, seen.ShelfLifeDays, seen.WasteCode, null, null);
        (await desk.Shop.Get<ChangeFluidHandler>().HandleAsync(new(seen.Id, data, seen.Version), Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();
        page.Type("refractometerFactor", "1.4");

        await page.SaveAsync();

        var row = Assert.Single(page.FindAll(".conflict tbody tr"));
        Assert.Equal(["1.4", "1.2"], row.QuerySelectorAll("td").Select(c => c.TextContent));
    }

    [Fact]
    public async Task Site_ChangedMeanwhile_ShowsBothVersions()
    {
        await using var desk = await OpenAsync();
        var page = desk.Render<SitePage>();
        page.WaitForElement("form", SetupDesk.Patience);
        var site = (await desk.Shop.SetupAsync()).Site!;
        (await desk.Shop.Get<SaveSiteHandler>().HandleAsync(Some.Site() with { Id = site.Id, Name = "Hall 4" }, Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();
        page.Type("name", "Hall 5");

        await page.SaveAsync();

        Assert.Equal(["Hall 5", "Hall 4"], page.FindAll(".conflict tbody tr")[0].QuerySelectorAll("td").Select(c => c.TextContent));
        await page.FindAll(".conflict button")[0].ClickAsync(new());
        await page.SaveAsync();
        Assert.Equal("Hall 5", (await desk.Shop.SetupAsync()).Site!.Name);
    }

    [Fact]
    public async Task Sump_Saved_IsChangedWithANewMachineAndCanBeSavedAgain()
    {
        await using var desk = await OpenAsync();
        var page = Sump(desk);
        Assert.Equal(("1000", "340", "7"), (page.ValueOf("lengthMm"), page.ValueOf("fullMarkMm"), page.ValueOf("walkOrder")));
        Assert.Empty(page.FindAll("#f-sumpTag"));

        page.Type("lengthMm", "1200");
        await page.FindAll("button").Single(b => b.TextContent == Texts.Setup_MachineNew).ClickAsync(new());
        page.Type("machineTag", "M-08");
        page.Type("machineName", "Grinder");
        page.Type("weeklyHours", "40");
        await page.SaveAsync();
        page.Type("walkOrder", "3");
        await page.SaveAsync();

        Assert.Empty(page.FindAll(".faults"));
        var setup = await desk.Shop.SetupAsync();
        var sump = setup.FindSump(Some.SumpTag)!;
        Assert.Equal((1200m, 3), (sump.Shape.LengthMm, sump.WalkOrder));
        Assert.Equal(["M-07", "M-08"], setup.MachinesOf(sump).Select(m => m.Tag));
    }

    [Fact]
    public async Task Sump_FullMarkOverTheBrim_NamesTheRangeAndKeepsWhatWasTyped()
    {
        await using var desk = await OpenAsync();
        var page = Sump(desk);
        page.Type("fullMarkMm", "412");

        await page.SaveAsync();

        Assert.Equal("Full mark 412 mm is outside the accepted range of 1 mm to 400 mm.", page.FaultOf("fullMarkMm"));
        Assert.Equal("412", page.ValueOf("fullMarkMm"));
    }

    [Fact]
    public async Task Sump_ChangedMeanwhile_ShowsBothVersionsAndKeepsMine()
    {
        await using var desk = await OpenAsync();
        var page = Sump(desk);
        page.Type("fullMarkMm", "330");
        var seen = (await desk.Shop.SetupAsync()).FindSump(Some.SumpTag)!;
        var other = new ChangeSump(seen.Tag, seen.AreaId, seen.Shape, 320, seen.PumpIntakeMm, seen.WalkOrder, seen.WaterSourceId, [.. seen.Machines.Select(m => m.MachineId)], [], seen.Version);
        (await desk.Shop.Get<ChangeSumpHandler>().HandleAsync(other, Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();

        await page.SaveAsync();

        Assert.Equal(["330", "320"], Assert.Single(page.FindAll(".conflict tbody tr")).QuerySelectorAll("td").Select(c => c.TextContent));
        await page.FindAll(".conflict button")[0].ClickAsync(new());
        await page.SaveAsync();
        Assert.Equal(330, (await desk.Shop.SetupAsync()).FindSump(Some.SumpTag)!.FullMarkMm);
    }

    [Fact]
    public async Task Sump_Unknown_SaysSo()
    {
        await using var desk = await OpenAsync();

        var page = desk.Render<EditSumpPage>(p => p.Add(m => m.Tag, "S-99"));
        page.WaitForElement("section.state h2", SetupDesk.Patience);

        Assert.Contains("S-99", page.Find("section.state h2").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Instrument_Saved_IsChanged()
    {
        await using var desk = await OpenAsync();
        await desk.Shop.InstrumentAsync(Some.Refractometer());
        var page = desk.Render<EditInstrumentPage>(p => p.Add(i => i.Tag, "r-1"));
        page.WaitForElement("form", SetupDesk.Patience);
        page.Type("accuracy", "6");
        await page.SaveAsync();
        Assert.Contains("0 to 5", page.FaultOf("accuracy"), StringComparison.Ordinal);

        page.Type("accuracy", "0,3");
        page.Type("checkEveryDays", "14");
        page.FindAll("input[type=checkbox]")[^1].Change(true);
        await page.SaveAsync();

        var instrument = Assert.Single((await desk.Shop.SetupAsync()).Instruments);
        Assert.Equal((0.3m, 14, true), (instrument.Accuracy, instrument.CheckEveryDays, instrument.OutOfUseSince is not null));
    }

    [Fact]
    public async Task Water_AnalysedAnew_IsChanged()
    {
        await using var desk = await OpenAsync();
        var page = desk.Render<EditWaterPage>(p => p.Add(w => w.Id, desk.Shop.WaterId));
        page.WaitForElement("form", SetupDesk.Patience);
        page.Type("hardness", "6000");
        await page.SaveAsync();
        Assert.Contains("0 mg/L to 5,000 mg/L", page.FaultOf("hardness"), StringComparison.Ordinal);

        page.Type("zeroBrix", "0,3");
        page.Type("hardness", "210");
        await page.SaveAsync();

        var water = Assert.Single((await desk.Shop.SetupAsync()).Waters);
        Assert.Equal(("Mains", 0.3m, 210m), (water.Name, water.ZeroBrix, water.HardnessMgPerLitre));
    }

    // Whoever keeps theirs goes on with it, whoever takes the stored one with that.
    [Theory]
    [InlineData(0, "Town water", "")]
    [InlineData(1, "Mains, new", "210")]
    public async Task Water_ChangedMeanwhile_ShowsBothVersionsAndGoesOnWithTheChosen(int chosen, string name, string hardness)
    {
        await using var desk = await OpenAsync();
        var page = desk.Render<EditWaterPage>(p => p.Add(w => w.Id, desk.Shop.WaterId));
        page.WaitForElement("form", SetupDesk.Patience);
        page.Type("name", "Town water");
        page.Type("hardness", "");
        var seen = Assert.Single((await desk.Shop.SetupAsync()).Waters);
        (await desk.Shop.Get<ChangeWaterSourceHandler>().HandleAsync(new(seen.Id, new("Mains, new", 0, 210, null, null), seen.Version), Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();

        await page.SaveAsync();

        Assert.Equal(["Town water", "Mains, new"], page.FindAll(".conflict tbody tr")[0].QuerySelectorAll("td").Select(c => c.TextContent));
        await page.FindAll(".conflict button")[chosen].ClickAsync(new());
        Assert.Empty(page.FindAll(".conflict"));
        Assert.Equal((name, hardness), (page.ValueOf("name"), page.ValueOf("hardness")));
        await page.SaveAsync();
        Assert.Equal(name, Assert.Single((await desk.Shop.SetupAsync()).Waters).Name);
    }

    [Fact]
    public async Task Area_Renamed_IsChangedAndKeepsItsSumps()
    {
        await using var desk = await OpenAsync();
        var area = Assert.Single((await desk.Shop.SetupAsync()).Areas);
        var page = desk.Render<EditAreaPage>(p => p.Add(a => a.Id, area.Id));
        page.WaitForElement("form", SetupDesk.Patience);
        Assert.Equal(area.Name, page.ValueOf("name"));
        page.Type("walkOrder", "10000");
        await page.SaveAsync();
        Assert.Contains("0 to 9,999", page.FaultOf("walkOrder"), StringComparison.Ordinal);

        page.Type("name", "South bay");
        page.Type("walkOrder", "4");
        await page.SaveAsync();

        var setup = await desk.Shop.SetupAsync();
        var changed = Assert.Single(setup.Areas);
        Assert.Equal((area.Id, "South bay", 4), (changed.Id, changed.Name, changed.WalkOrder));
        Assert.Equal(area.Id, setup.FindSump(Some.SumpTag)!.AreaId);
    }

    [Fact]
    public async Task Area_Unknown_SaysSoWithAWayBack()
    {
        await using var desk = await OpenAsync();

        var page = desk.Render<EditAreaPage>(p => p.Add(a => a.Id, Some.Id()));
        page.WaitForElement("section.state h2", SetupDesk.Patience);

        Assert.Equal(Texts.Error_AreaNotFound, page.Find("section.state h2").TextContent);
    }

    [Fact]
    public async Task Water_Unknown_SaysSoWithAWayBack()
    {
        await using var desk = await OpenAsync();

        var page = desk.Render<EditWaterPage>(p => p.Add(w => w.Id, Some.Id()));
        page.WaitForElement("section.state h2", SetupDesk.Patience);

        Assert.Equal(Texts.Error_WaterNotFound, page.Find("section.state h2").TextContent);
    }

    private static async Task<DeskContext> OpenAsync()
    {
        var desk = await SetupDesk.OpenAsync();
        desk.Services.AddSingleton(desk.Shop.Get<ChangeMachineHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<ChangeFluidHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<ChangeSumpHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<ChangeInstrumentHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<ChangeWaterSourceHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<ChangeAreaHandler>());
        return desk;
    }

    private static IRenderedComponent<EditMachinePage> Machine(DeskContext desk)
    {
        var page = desk.Render<EditMachinePage>(p => p.Add(m => m.Tag, "m-07"));
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }

    private static IRenderedComponent<EditSumpPage> Sump(DeskContext desk)
    {
        var page = desk.Render<EditSumpPage>(p => p.Add(s => s.Tag, Some.SumpTag));
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }

    private static async Task OtherChangesMachineAsync(DeskContext desk)
    {
        var machine = Assert.Single((await desk.Shop.SetupAsync()).Machines);
        (await desk.Shop.Get<ChangeMachineHandler>().HandleAsync(new(machine.Id, "Grinder", machine.Process, 40, Delivery.Flood, machine.Version), Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();
    }

    private static List<string> Row(IRenderedComponent<EditMachinePage> page, string label) =>
        [.. page.FindAll(".conflict tbody tr").Single(r => r.QuerySelector("th")?.TextContent == label).QuerySelectorAll("td").Select(c => c.TextContent)];
}
