using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Care;

/// <summary>How the next is planned by what was found, by running hours, by months; days as shop days from Monday 2 March 2026.</summary>
public sealed class CareIntervalTests
{
    private static readonly DateOnly Today = new(2026, 3, 2);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    // 14 days, 1 L wanted. Twice as much halves the aim, half of the way is gone at once; nothing said leaves it; skipping says nothing.
    [Theory]
    [EachDatabase(2.0, 10.5, 11)]
    [EachDatabase(1.0, 14.0, 14)]
    [EachDatabase(0.0, 22.0, 22)]
    [EachDatabase(null, 14.0, 14)]
    public async Task EndTask_ByWhatIsFound_PlansTheNextByTheFind(TestDatabase database, double? litres, double interval, int days)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(ByFind());

        await EndAsync(shop, (decimal?)litres);

        var next = await OpenAsync(shop);
        Assert.Equal(((decimal?)interval, Today.AddDays(days)), (next.IntervalDays, await DueAsync(shop)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // What was found is reckoned for the time in which it gathered: done a week late with half as much again, the sump is no worse.
    [Theory, EachDatabase]
    public async Task EndTask_ByWhatIsFoundDoneLate_ComparesForTheTimeThatPassed(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(ByFind());
        await EndAsync(shop, 1);
        shop.Clock.Advance(TimeSpan.FromDays(21));

        await EndAsync(shop, 1.5m);

        Assert.Equal((14m, Today.AddDays(35)), ((await OpenAsync(shop)).IntervalDays, await DueAsync(shop)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task EndTask_ByWhatIsFoundManyTimes_StaysBetweenFloorAndCeiling(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(ByFind());
        foreach (var (litres, last) in new[] { (50m, 7m), (0m, 30m) })
        {
            for (var time = 0; time < 12; time++)
            {
                await EndAsync(shop, litres);
                var next = await OpenAsync(shop);
                Assert.InRange(next.IntervalDays ?? 0, 7, 30);
                shop.Clock.SetUtcNow(new DateTimeOffset(next.DueAtUtc.AddHours(-12)));
            }

            Assert.Equal(last, decimal.Round((await OpenAsync(shop)).IntervalDays ?? 0, 1));
        }

        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task EndTask_ByWhatIsFoundSkipped_KeepsTheInterval(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(ByFind());
        await EndAsync(shop, 2);

        (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask((await OpenAsync(shop)).Id, TaskState.Skipped, "no time"), Some.Operator, isSupervisor: false, Stop)).Done();

        Assert.Equal((10.5m, Today.AddDays(11)), ((await OpenAsync(shop)).IntervalDays, await DueAsync(shop)));
    }

    // A filter of which half is wanted and that was full comes back in half the time, damped.
    [Theory, EachDatabase]
    public async Task EndTask_FilterFullHalfWanted_ComesSooner(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.ChangeFilter, basis: IntervalBasis.Condition, days: 28) with { FloorDays = 7, CeilingDays = 60, WantedFind = 1 });

        (await shop.Get<EndTaskHandler>().HandleAsync(
            new EndTask((await OpenAsync(shop)).Id, TaskState.Done, Found: new(FindNames.FilterState, (decimal)FilterState.Full, null)), Some.Operator, isSupervisor: false, Stop)).Done();

        Assert.Equal(21m, (await OpenAsync(shop)).IntervalDays);
    }

    // 400 hours at 80 a week are 35 days.
    [Theory, EachDatabase]
    public async Task EndTask_ByRunningHours_PlansDaysByTheWeeklyHours(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var step = await shop.StepAsync(Some.Step(TaskKind.ChangeFilter, basis: IntervalBasis.RunningHours, days: 0) with { IntervalHours = 400 });

        await EndAsync(shop, null);

        Assert.Equal((35, Today.AddDays(35)), ((await FactsAsync(shop, step.Id)).IntervalDays, await DueAsync(shop)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // A central system is worn by the machine that runs most.
    [Theory, EachDatabase]
    public async Task WeeklyHours_CentralSystem_AreThoseOfTheMachineThatRunsMost(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var sump = Some.Sump(Some.Id(), shop.AreaId, "C-1", "M-21");
        await shop.SumpAsync(sump with { Machines = [sump.Machines[0] with { WeeklyHours = 40 }, new(Some.Id(), "M-22", "Grinder", "grinding", 120, Core.Machines.Delivery.Flood), new(Some.Id(), "M-23", "Mill", "milling", 0, Core.Machines.Delivery.Flood)] });

        Assert.Equal(120, (await shop.SetupAsync()).WeeklyHoursOf(sump.Id));
    }

    [Theory, EachDatabase]
    public async Task EndTask_ByMonths_KeepsTheDayOfTheMonth(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.ChangeFilter, days: 0, anchor: new DateOnly(2026, 3, 31)) with { IntervalMonths = 1 });
        Assert.Equal(new DateOnly(2026, 3, 31), await DueAsync(shop));
        foreach (var due in new[] { new DateOnly(2026, 4, 30), new DateOnly(2026, 5, 31) })
        {
            shop.Clock.SetUtcNow(new DateTimeOffset((await OpenAsync(shop)).DueAtUtc.AddHours(-12)));
            await EndAsync(shop, null);
            Assert.Equal(due, await DueAsync(shop));
        }

        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // A draining that follows the sludge, done by draining: its own interval says whether it counts, and stays.
    [Theory, EachDatabase]
    public async Task Drain_DrainCleanByWhatIsFound_IsDoneAndKeepsItsInterval(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.DrainClean, basis: IntervalBasis.Condition, days: 100, anchor: Today.AddDays(20)) with { FloorDays = 30, CeilingDays = 400, WantedFind = 10 });

        (await shop.DrainAsync(Some.Start)).Done();

        Assert.Equal((100m, Today.AddDays(100)), ((await OpenAsync(shop)).IntervalDays, await DueAsync(shop)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task AddCareStep_IntervalThatCannotBe_NamesTheFieldAndTheRange(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var handler = shop.Get<AddCareStepHandler>();
        async Task<IReadOnlyList<FieldError>> RefusedAsync(AddCareStep step) => (await handler.HandleAsync(step, Some.Supervisor, Stop)).Fields();

        Assert.Equal([new FieldError("intervalMonths", FieldProblem.OutOfRange, 121, 1, 120, "months")], await RefusedAsync(Some.Step(TaskKind.Skim, days: 0) with { IntervalMonths = 121 }));
        Assert.Equal([new FieldError("intervalMonths", FieldProblem.OutOfRange, -1, 1, 120, "months")], await RefusedAsync(Some.Step(TaskKind.Skim) with { IntervalMonths = -1 }));
        Assert.Equal([new FieldError("intervalHours", FieldProblem.OutOfRange, 0, 1, 50_000, "h")], await RefusedAsync(Some.Step(TaskKind.Skim, basis: IntervalBasis.RunningHours)));
        Assert.Equal([new FieldError("intervalMonths", FieldProblem.NotAskedHere)], await RefusedAsync(ByFind() with { IntervalMonths = 1 }));
        Assert.Equal(["intervalDays", "floorDays", "wantedFind"], (await RefusedAsync(ByFind() with { IntervalDays = 0, FloorDays = 0, WantedFind = 0 })).Select(e => e.Field));
        Assert.Equal([new FieldError("ceilingDays", FieldProblem.OutOfRange, 6, 7, 3660, "d")], await RefusedAsync(ByFind() with { CeilingDays = 6 }));
        Assert.Equal([new FieldError("wantedFind", FieldProblem.OutOfRange, 1001, 0.001m, 1000, "L")], await RefusedAsync(ByFind() with { WantedFind = 1001 }));
        Assert.Equal([new FieldError("wantedFind", FieldProblem.UnknownChoice)], await RefusedAsync(ByFind() with { Kind = TaskKind.ChangeFilter, WantedFind = 0 }));
        Assert.Equal([new FieldError("basis", FieldProblem.NothingToFind)], await RefusedAsync(ByFind() with { Kind = TaskKind.Inspect }));
        Assert.Equal([FieldProblem.UnknownParameter], (await RefusedAsync(Some.Step(TaskKind.Inspect, basis: IntervalBasis.AfterFlag) with { EventParameter = "luck" })).Select(e => e.Problem));
        Assert.Equal(0, await shop.CountAsync<CareStep>());

        var still = Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08");
        await shop.SumpAsync(still with { Machines = [still.Machines[0] with { WeeklyHours = 0 }] });
        Assert.Equal([new FieldError("basis", FieldProblem.NoRunningHours)], await RefusedAsync(Some.Step(TaskKind.Skim, "S-08", IntervalBasis.RunningHours) with { IntervalHours = 100 }));
    }

    private static AddCareStep ByFind() => Some.Step(TaskKind.Skim, basis: IntervalBasis.Condition, days: 14) with { FloorDays = 7, CeilingDays = 30, WantedFind = 1 };

    private static async Task<CareStepFacts> FactsAsync(ShopFixture shop, Guid stepId)
    {
        var setup = await shop.SetupAsync();
        return setup.FactsOf(setup.StepsOf(shop.SumpId).Single(s => s.Id == stepId), shop.SumpId);
    }

    private static Task<CareTask> OpenAsync(ShopFixture shop) => shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.State == TaskState.Open));

    private static async Task<DateOnly> DueAsync(ShopFixture shop) => CareSchedule.DueDayOf((await OpenAsync(shop)).DueAtUtc, (await shop.SetupAsync()).Calendar);

    private static async Task EndAsync(ShopFixture shop, decimal? litres)
    {
        var found = litres is { } oil ? new TypedFind(FindNames.OilLitres, oil, null) : null;
        (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask((await OpenAsync(shop)).Id, TaskState.Done, Found: found), Some.Operator, isSupervisor: false, Stop)).Done();
    }
}
