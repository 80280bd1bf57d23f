using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Care.Templates;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Setup.Care;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

public sealed class TemplatePageTests
{
    [Fact]
    public async Task Render_EmptyPlan_PreviewsTheTemplateOfItsFluidAndMachine()
    {
        await using var desk = await SetupDesk.OpenAsync();

        var page = Page(desk);

        Assert.Equal(("SemiSynthetic", nameof(MachineUse.Machining)), (page.Find("#f-fluidKind").GetAttribute("value"), page.Find("#f-machineUse").GetAttribute("value")));
        var rows = page.FindAll("tbody tr");
        Assert.Equal(CareTemplates.For(Core.Fluids.FluidKind.SemiSynthetic, MachineUse.Machining, Delivery.Flood).Count, rows.Count);
        Assert.All(rows, r => Assert.True(r.QuerySelector("input")?.HasAttribute("checked")));
        var text = page.Find("tbody").TextContent;
        Assert.Contains("every 7 days, by the calendar", text, StringComparison.Ordinal);
        Assert.Contains("Concentration, pH, Level", text, StringComparison.Ordinal);
        Assert.Contains("DGUV Regel 109-003, Annex 3", text, StringComparison.Ordinal);
        Assert.Contains("Lock out before reaching in.", text, StringComparison.Ordinal);
        Assert.Empty((await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId));
    }

    [Fact]
    public async Task Choose_AnotherMachine_ChangesThePreview()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);

        page.Find("#f-machineUse").Change(nameof(MachineUse.Grinding));

        Assert.Contains(Texts.Template_FilterGrindingType, page.Find("tbody").TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain(Texts.Template_Chips, page.Find("tbody").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Save_OneTakenOut_PutsTheRestOnThePlanAndLeadsToIt()
    {
        await using var desk = await SetupDesk.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Skim));
        var page = Page(desk);
        var offered = page.FindAll("tbody input").Count;
        Assert.Contains(Texts.Setup_TemplateThere, page.Find("tbody").TextContent, StringComparison.Ordinal);
        page.FindAll("tbody input")[0].Change(false);

        await page.SaveAsync();

        var steps = (await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId);
        Assert.Equal(offered, steps.Count);
        Assert.Single(steps, s => s.Kind == TaskKind.Skim);
        Assert.DoesNotContain(steps, s => s.Template == "core");
        Assert.EndsWith("setup/care?sump=S-07", desk.Services.GetRequiredService<NavigationManager>().Uri, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Save_NothingChosen_RefusesAtTheList()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        while (page.FindAll("tbody input").FirstOrDefault(i => i.HasAttribute("checked")) is { } box)
        {
            box.Change(false);
        }

        await page.SaveAsync();

        Assert.Equal("Steps of the template is missing.", page.FaultOf("templateSteps"));
        Assert.Empty((await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId));
    }

    private static IRenderedComponent<TemplatePage> Page(DeskContext desk)
    {
        var page = desk.Render<TemplatePage>();
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }
}
