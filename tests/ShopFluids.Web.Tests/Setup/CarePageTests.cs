using Bunit;
using ShopFluids.Core.Care;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Setup.Care;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

public sealed class CarePageTests
{
    [Fact]
    public async Task UsualSteps_EmptyPlan_AddsFourWithTheirTasks()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);

        await page.FindAll("button").Single(b => b.TextContent == Texts.Setup_UsualAdd).ClickAsync(new());

        page.WaitForAssertion(() => Assert.Equal(4, page.FindAll("tbody tr").Count), SetupDesk.Patience);
        Assert.Equal(4, await desk.Shop.CountAsync<CareTask>());
        Assert.DoesNotContain(page.FindAll("button"), b => b.TextContent == Texts.Setup_UsualAdd);
        Assert.Equal("4 steps are added.", page.Find("p.said[role=status]").TextContent);
    }

    [Fact]
    public async Task Save_TestWithoutParameters_RefusesAtTheGroupAndKeepsTheInterval()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Type("intervalDays", "14");
        foreach (var parameter in UsualSteps.TestParameters)
        {
            page.FindAll("#f-parameters input").First(i => i.HasAttribute("checked")).Change(false);
            Assert.NotEmpty(parameter);
        }

        await page.SaveAsync();

        Assert.Equal("What has to be measured is missing.", page.FaultOf("parameters"));
        Assert.Equal("14", page.ValueOf("intervalDays"));
        Assert.Empty((await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId));
    }

    [Fact]
    public async Task Save_Skim_AddsTheStepWithoutParameters()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Find("#f-kind").Change(nameof(TaskKind.Skim));
        page.Type("intervalDays", "3");

        await page.SaveAsync();

        var step = Assert.Single((await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId));
        Assert.Equal((TaskKind.Skim, 3), (step.Kind, step.IntervalDays));
        Assert.Empty(step.Parameters);
        Assert.Equal(Texts.Setup_StepAdded, page.Find(".formfoot [role=status]").TextContent);
    }

    [Fact]
    public async Task Stop_AsksFirstAndThenWithdrawsTheTask()
    {
        await using var desk = await SetupDesk.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Skim));
        var page = Page(desk);

        await page.Find("tbody .ways button").ClickAsync(new());
        Assert.Single((await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId));
        await page.FindAll("tbody .ways button").Single(b => b.TextContent == Texts.Setup_StopDo).ClickAsync(new());

        page.WaitForAssertion(() => Assert.Empty(page.FindAll("tbody tr")), SetupDesk.Patience);
        Assert.Empty((await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId));
        Assert.Equal(TaskState.Withdrawn, await desk.Shop.ReadAsync(async db => (await Microsoft.EntityFrameworkCore.EntityFrameworkQueryableExtensions.SingleAsync(db.CareTasks)).State));
    }

    private static IRenderedComponent<CarePage> Page(DeskContext desk)
    {
        var page = desk.Render<CarePage>();
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }
}
