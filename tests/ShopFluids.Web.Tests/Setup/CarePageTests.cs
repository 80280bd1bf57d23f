using Bunit;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Templates;
using ShopFluids.Core.Setup;
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
    public async Task Template_IsOneClickAway()
    {
        await using var desk = await SetupDesk.OpenAsync();

        Assert.Equal("setup/care/template?sump=S-07", Page(desk).FindAll("a").Single(a => a.TextContent == Texts.Setup_TemplateChoose).GetAttribute("href"));
    }

    [Fact]
    public async Task Save_TestByRisk_AsksForItsBoundsAndSaysTheInterval()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Find("#f-basis").Change(nameof(IntervalBasis.Risk));
        page.Type("intervalDays", "40");
        page.Type("floorDays", "2");
        page.Type("ceilingDays", "28");
        page.Type("acceptedRiskPercent", "60");
        await page.SaveAsync();
        Assert.Equal("Usual interval 40 d is outside the accepted range of 2 d to 28 d.", page.FaultOf("intervalDays"));
        Assert.Equal("Accepted risk 60 % is outside the accepted range of 0.1 % to 50 %.", page.FaultOf("acceptedRiskPercent"));
        page.Type("intervalDays", "7");
        page.Type("acceptedRiskPercent", "2,5");

        await page.SaveAsync();

        Assert.Equal(new RiskPolicy(2, 28, 2.5m), Assert.Single((await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId)).Risk);
        Assert.Contains("2 to 28 days, by risk; accepted: 2.5 %", page.Find("tbody").TextContent, StringComparison.Ordinal);
        page.Find("#f-kind").Change(nameof(TaskKind.Skim));
        Assert.DoesNotContain(page.FindAll("#f-basis option"), o => o.GetAttribute("value") == nameof(IntervalBasis.Risk));
    }

    [Fact]
    public async Task Save_FilterWithWhatItNeeds_KeepsItAndShowsItWithTheStep()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        Assert.Empty(page.FindAll("#f-filter"));
        page.Find("#f-kind").Change(nameof(TaskKind.ChangeFilter));
        page.Type("filter", "Bag 50 um, size 2");
        page.Type("what", "Change the bag of the band filter");
        page.Type("steps", "Lock out\n\n  Change the bag \nLook for leaks");

        await page.SaveAsync();

        var needs = Assert.IsType<StepNeeds>(Assert.Single((await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId)).Needs);
        Assert.Equal(("Change the bag of the band filter", "Bag 50 um, size 2"), (needs.What, needs.Filter));
        Assert.Equal(["Lock out", "Change the bag", "Look for leaks"], needs.Steps);
        Assert.Contains("Change the bag of the band filter", page.Find("tbody th").TextContent, StringComparison.Ordinal);
        Assert.Equal(["Lock out", "Change the bag", "Look for leaks"], page.FindAll("tbody .needs li").Select(l => l.TextContent));
    }

    [Fact]
    public async Task Save_TooManySteps_RefusesAtTheBoxAndKeepsThem()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Find("#f-kind").Change(nameof(TaskKind.Inspect));
        page.Type("steps", string.Join('\n', Enumerable.Range(1, 13)));
        page.Type("what", new string('x', 81));

        await page.SaveAsync();

        Assert.Equal("Steps 13 is outside the accepted range of 0 to 12.", page.FaultOf("steps"));
        Assert.NotNull(page.FaultOf("what"));
        Assert.StartsWith("1\n2\n3", page.ValueOf("steps"), StringComparison.Ordinal);
        Assert.Empty((await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId));
    }

    // Shifts are offered once the shop has named them.
    [Fact]
    public async Task Save_StepOfAShift_SaysItsEnd()
    {
        await using var desk = await SetupDesk.OpenAsync();
        Assert.Empty(Page(desk).FindAll("#f-shift"));
        (await desk.Shop.Get<SaveSiteHandler>().HandleAsync(Some.Site() with { Id = desk.Shop.SiteId, ShiftEnds = "22:00, 14:00" }, Some.Supervisor, Xunit.TestContext.Current.CancellationToken)).Done();
        var page = Page(desk);
        page.Find("#f-shift").Change("1");

        await page.SaveAsync();

        Assert.Equal(1, Assert.Single((await desk.Shop.SetupAsync()).StepsOf(desk.Shop.SumpId)).Shift);
        Assert.Contains("shift 1, 14:00", page.Find("tbody").TextContent, StringComparison.Ordinal);
        Assert.Equal(new DateTime(2026, 3, 2, 13, 0, 0, DateTimeKind.Utc), await desk.Shop.ReadAsync(db => Task.FromResult(db.CareTasks.Single().DueAtUtc)));
    }

    [Fact]
    public async Task Save_TestWithoutParameters_RefusesAtTheGroupAndKeepsTheInterval()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = Page(desk);
        page.Type("intervalDays", "14");
        foreach (var parameter in CareTemplates.CoreParameters)
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
    [InlineData(IntervalBasis.AfterFill, null, "intervalDays", "1", "the day after the fill")]
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

    private static IRenderedComponent<CarePage> Page(DeskContext desk)
    {
        var page = desk.Render<CarePage>();
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }
}
