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
    public async Task UsualSteps_EmptyPlan_AddsFiveWithTheirTasks()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);

        await page.FindAll("button").Single(b => b.TextContent == Texts.Setup_UsualAdd).ClickAsync(new());

        page.WaitForAssertion(() => Assert.Equal(5, page.FindAll("tbody tr").Count), SetupDesk.Patience);
        Assert.Equal(5, await desk.Shop.CountAsync<CareTask>());
        Assert.DoesNotContain(page.FindAll("button"), b => b.TextContent == Texts.Setup_UsualAdd);
        Assert.Equal("5 steps are added.", page.Find("p.said[role=status]").TextContent);
    }

    // A plan that has a test of pH alone still lacks the rest; one that looks and smells already is not asked to twice.
    [Fact]
    public async Task Missing_SomeTestsThere_AddsTheTestsOfWhatIsNotMeasured()
    {
        await using var desk = await SetupDesk.OpenAsync();
        await desk.Shop.StepAsync(Some.Step(TaskKind.Skim));
        await desk.Shop.StepAsync(Some.Step(TaskKind.Test, parameters: [ParameterCodes.Ph]));
        Assert.Equal([TaskKind.Test, TaskKind.Test, TaskKind.ChangeFilter, TaskKind.DrainClean], (await MissingAsync(desk)).Select(s => s.Kind));

        await desk.Shop.StepAsync(Some.Step(TaskKind.Test, parameters: [ParameterCodes.TrampOil, ParameterCodes.Odour]));

        var test = Assert.Single(await MissingAsync(desk), s => s.Kind == TaskKind.Test);
        Assert.Equal((UsualSteps.TestParameters, 7), (test.Parameters, test.IntervalDays));
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

    private static async Task<IReadOnlyList<Core.Setup.AddCareStep>> MissingAsync(DeskContext desk) =>
        UsualSteps.Missing(Some.SumpTag, (await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId), new DateOnly(2026, 3, 2), Some.Id);

    private static IRenderedComponent<CarePage> Page(DeskContext desk)
    {
        var page = desk.Render<CarePage>();
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }
}
