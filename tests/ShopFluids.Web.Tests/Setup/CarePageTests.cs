using Bunit;
using ShopFluids.Core.Care;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
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
    public async Task Save_ByWhatIsFound_AsksForItsBoundsAndSaysTheInterval()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        Assert.DoesNotContain(page.FindAll("#f-basis option"), o => o.GetAttribute("value") == nameof(IntervalBasis.Condition));
        page.Find("#f-kind").Change(nameof(TaskKind.Skim));
        page.Find("#f-basis").Change(nameof(IntervalBasis.Condition));
        page.Type("intervalDays", "14");
        page.Type("floorDays", "7");
        page.Type("ceilingDays", "5");
        page.Type("wantedFind", "1,5");
        await page.SaveAsync();
        Assert.Equal("Longest interval 5 d is outside the accepted range of 7 d to 3,660 d.", page.FaultOf("ceilingDays"));
        page.Type("ceilingDays", "30");

        await page.SaveAsync();

        var step = Assert.Single((await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId));
        Assert.Equal((IntervalBasis.Condition, 14, 7, 30, 1.5m), (step.Basis, step.IntervalDays, step.FloorDays, step.CeilingDays, step.WantedFind));
        Assert.Contains("7 to 30 days, by what is found; wanted: 1.5 L of oil taken off", page.Find("tbody").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Save_FilterByWhatIsFound_AsksForAGrade()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Find("#f-kind").Change(nameof(TaskKind.Skim));
        page.Find("#f-basis").Change(nameof(IntervalBasis.Condition));
        page.Find("#f-kind").Change(nameof(TaskKind.ChangeFilter));
        page.Type("floorDays", "7");
        page.Type("ceilingDays", "60");
        await page.SaveAsync();
        Assert.Equal("To be found each time is missing.", page.FaultOf("wantedFind"));

        page.Find("#f-wantedFind").Change("1");
        await page.SaveAsync();

        Assert.Equal(1m, Assert.Single((await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId)).WantedFind);
        Assert.Contains("wanted: filter half full", page.Find("tbody").TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(IntervalBasis.RunningHours, null, "intervalHours", "400", "every 400 running hours, now 35 days")]
    [InlineData(IntervalBasis.FromLastDone, "months", "intervalMonths", "6", "every 6 months, from when it was last done")]
    [InlineData(IntervalBasis.CalendarAnchored, "months", "intervalMonths", "1", "every month, by the calendar")]
    [InlineData(IntervalBasis.AfterFill, null, "intervalDays", "3", "3 days after the fill")]
    [InlineData(IntervalBasis.AfterFlag, null, "intervalDays", "14", "14 days after a flag: any parameter")]
    public async Task Save_OtherBasis_AddsTheStepAndSaysIt(IntervalBasis basis, string? countedIn, string field, string typed, string said)
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Find("#f-kind").Change(nameof(TaskKind.Inspect));
        page.Find("#f-basis").Change(basis.ToString());
        if (countedIn is not null)
        {
            page.Find("#f-intervalIn").Change(countedIn);
        }

        page.Type(field, typed);
        await page.SaveAsync();

        Assert.Equal(basis, Assert.Single((await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId)).Basis);
        Assert.Contains(said, page.Find("tbody").TextContent, StringComparison.Ordinal);
    }

    // Work that finds nothing to count is not left reckoned by it.
    [Fact]
    public async Task Kind_ByWhatIsFoundAndThenInspect_FallsBackToLastDone()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Find("#f-kind").Change(nameof(TaskKind.Skim));
        page.Find("#f-basis").Change(nameof(IntervalBasis.Condition));

        page.Find("#f-kind").Change(nameof(TaskKind.Inspect));

        Assert.Equal(nameof(IntervalBasis.FromLastDone), page.Find("#f-basis").GetAttribute("value"));
        Assert.Empty(page.FindAll("#f-floorDays"));
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
