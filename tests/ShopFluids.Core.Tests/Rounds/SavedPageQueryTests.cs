using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Care;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Rounds;

public sealed class SavedPageQueryTests
{
    private static Task<ShopFixture> OpenAsync(TestDatabase database) => ShopFixture.OpenAsync(database, also: s => s.AddSingleton<SavedPageQuery>());

    private static async Task<SavedPage> RunAsync(ShopFixture shop, Guid readingId) => (await shop.Get<SavedPageQuery>().RunAsync("S-07", readingId, default)).Done();

    private static async Task LotAsync(ShopFixture shop, string number, DateOnly expires, decimal litres) =>
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(Some.Id(), shop.FluidId, number, litres, expires), Some.Supervisor, default)).Done();

    [Theory, EachDatabase]
    public async Task LotFor_SeveralLots_IsTheFirstToExpireThatMayBeUsedAndHoldsEnough(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await LotAsync(shop, "EXPIRED", new DateOnly(2026, 3, 1), 100);
        await LotAsync(shop, "LAST-DAY", new DateOnly(2026, 3, 2), 3);
        await LotAsync(shop, "SOON", new DateOnly(2026, 5, 1), 100);
        var outcome = await shop.StoreAsync(Some.Reading());

        var page = await RunAsync(shop, outcome.ReadingId);

        Assert.Equal("LAST-DAY", page.Lots.For(2)?.Number);
        Assert.Equal("SOON", page.Lots.For(4)?.Number);
        Assert.Null(page.Lots.For(500));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_ReadAgainSince_IsNotCurrent(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var first = await shop.StoreAsync(Some.Reading());
        Assert.True((await RunAsync(shop, first.ReadingId)).IsCurrent);

        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(takenAt: shop.Now));

        Assert.False((await RunAsync(shop, first.ReadingId)).IsCurrent);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_AdditionMade_IsListedWithItsLot(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.Reading(brix: 5, levelMm: 250));
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 30, concentrate: 5, readingId: outcome.ReadingId))).Done();

        var page = await RunAsync(shop, outcome.ReadingId);

        Assert.Equal(new SavedAddition(Some.Start, 30, 5, 0, "L-1"), Assert.Single(page.Additions));
        Assert.Equal(125, page.LevelLitres);
        Assert.Equal(170, page.FullMarkLitres, 6);
    }

    // What is added asks for a look at its effect: the page then no longer speaks of the test of next week.
    [Theory, EachDatabase]
    public async Task RunAsync_AddedAfterAFlag_NextTestIsToday(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test, anchor: new DateOnly(2026, 3, 2)));
        var outcome = await shop.StoreAsync(Some.Reading(brix: 5, levelMm: 250));
        Assert.Equal(new DateTime(2026, 3, 10, 5, 0, 0, DateTimeKind.Utc), (await RunAsync(shop, outcome.ReadingId)).NextTestDueAtUtc);

        (await shop.AddAsync(Some.Addition(shop.LotId, water: 30, concentrate: 5, readingId: outcome.ReadingId))).Done();

        Assert.Equal(new DateTime(2026, 3, 3, 5, 0, 0, DateTimeKind.Utc), (await RunAsync(shop, outcome.ReadingId)).NextTestDueAtUtc);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_SkimOfPlanAndOfAFlag_IsOneLineOpenAndDone(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var outcome = await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.TrampOil, 20)));

        var open = Assert.Single((await RunAsync(shop, outcome.ReadingId)).Tasks);
        Assert.Equal((TaskKind.Skim, "limit:tramp-oil", TaskState.Open), (open.Kind, open.Cause, open.State));
        (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(open.Id, TaskState.Done), Some.Operator, isSupervisor: false, TestContext.Current.CancellationToken)).Done();

        var done = Assert.Single((await RunAsync(shop, outcome.ReadingId)).Tasks);
        Assert.Equal((open.Id, TaskState.Done), (done.Id, done.State));
    }

    // pH falls by 0.05 a week towards 8.5: the next test is due before the risk reaches 5 %, and the page says so.
    [Theory, EachDatabase]
    public async Task RunAsync_TestByRisk_SaysWhyItIsDueThen(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test, basis: IntervalBasis.Risk, parameters: [ParameterCodes.Ph]) with { FloorDays = 1, CeilingDays = 60, AcceptedRiskPercent = 5 });
        var last = Guid.Empty;
        foreach (var (week, ph) in new[] { 9.20m, 9.10m, 9.10m, 8.95m, 8.95m }.Index())
        {
            shop.Clock.Advance(TimeSpan.FromDays(week == 0 ? 0 : 7));
            last = (await shop.StoreAsync(Some.Reading(brix: null, ph: ph, levelMm: null, takenAt: shop.Now))).ReadingId;
        }

        var page = await RunAsync(shop, last);

        var why = Assert.IsType<TestReason>(page.NextTestWhy);
        Assert.Equal((TestDaySetBy.Risk, ParameterCodes.Ph, Direction.Low, 60), (why.SetBy, why.Parameter, why.Side, why.CeilingDays));
        Assert.Equal(new DateOnly(2026, 3, 30).AddDays(why.Days), (await shop.SetupAsync()).Calendar.ShopDayOf(Assert.NotNull(page.NextTestDueAtUtc).AddTicks(-1)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // Who has just read the sump is asked for what falls due in two shop days, and not for what falls due in three.
    [Theory, EachDatabase]
    public async Task RunAsync_WorkNearlyDue_GoesAlongOnTheDayOfTheReading(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim, days: 14, anchor: new DateOnly(2026, 3, 4)));
        await shop.StepAsync(Some.Step(TaskKind.ChangeFilter, days: 28, anchor: new DateOnly(2026, 3, 5)));
        await shop.StepAsync(Some.Step(TaskKind.Inspect, days: 28, anchor: new DateOnly(2026, 3, 2)));
        var outcome = await shop.StoreAsync(Some.Reading());

        var tasks = (await RunAsync(shop, outcome.ReadingId)).Tasks;

        Assert.Equal([(TaskKind.Inspect, false), (TaskKind.Skim, true)], tasks.Select(t => (t.Kind, t.GoesAlong)));
        shop.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Equal([TaskKind.Inspect], (await RunAsync(shop, outcome.ReadingId)).Tasks.Select(t => t.Kind));
    }

    [Theory]
    [EachDatabase(6.0, TaskKind.DrainClean, true)]
    [EachDatabase(4.0, TaskKind.Inspect, false)]
    public async Task RunAsync_WorkOfASlide_SaysWhetherOnlyASupervisorSkips(TestDatabase database, double slide, TaskKind kind, bool expected)
    {
        await using var shop = await OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Bacteria, (decimal)slide)));

        var task = Assert.Single((await RunAsync(shop, outcome.ReadingId)).Tasks);

        Assert.Equal((kind, expected), (task.Kind, task.OnlyASupervisorSkips));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_UnknownReading_SaysSo(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        Assert.IsType<ReadingNotFound>((await shop.Get<SavedPageQuery>().RunAsync("S-07", Some.Id(), TestContext.Current.CancellationToken)).Refused());
    }
}
