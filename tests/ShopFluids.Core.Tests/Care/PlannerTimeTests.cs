using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Care;

/// <summary>A program that did not run for long, a clock that steps back or over a change, days on which the shop is closed.</summary>
public sealed class PlannerTimeTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    // Two years without the program: one test is late, one flag says so, and one task follows the one that is done.
    [Theory, EachDatabase]
    public async Task TwoYearsOfDowntime_TimersAndOneVisit_PlanNoBurst(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        foreach (var basis in new[] { IntervalBasis.CalendarAnchored, IntervalBasis.FromLastDone })
        {
            await shop.StepAsync(Some.Step(TaskKind.Test, basis: basis));
            await shop.StepAsync(Some.Step(TaskKind.Inspect, basis: basis, days: 1));
        }

        var before = await shop.CountAsync<CareTask>();
        shop.Clock.Advance(TimeSpan.FromDays(730));
        for (var hour = 0; hour < 3; hour++)
        {
            await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop);
            Assert.Equal(0, await shop.Get<PlanMissingHandler>().HandleAsync(Stop));
        }

        // One flag for the late test, and one for the machine that stands, with its work.
        Assert.Equal((before + 2, 2), (await shop.CountAsync<CareTask>(), await shop.CountAsync<Flag>()));

        // One visit: what is ticked off, and a reading that does the tests.
        await shop.StoreAsync(Some.Reading(takenAt: shop.Now));
        foreach (var task in (await OpenAsync(shop)).Where(t => t.Kind == TaskKind.Inspect))
        {
            (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(task.Id, TaskState.Done), Some.Operator, isSupervisor: false, Stop)).Done();
        }

        Assert.Equal((2 * before) + 2, await shop.CountAsync<CareTask>());
        Assert.All(await OpenAsync(shop), t => Assert.InRange(t.DueAtUtc, shop.Now, shop.Now.AddDays(9)));
        Assert.Equal(0, await shop.ReadAsync(db => db.Flags.CountAsync(f => f.EndedAtUtc == null)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // Rows came from elsewhere without their tasks, and two years passed: each step has one task again, from today on.
    [Theory, EachDatabase]
    public async Task PlanMissing_LongAgoLost_PlansEachStepOnceFromToday(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StepAsync(Some.Step(TaskKind.Inspect, days: 1));
        await RawSql.ExecuteAsync(database, "DELETE FROM \"CareTasks\"");
        shop.Clock.Advance(TimeSpan.FromDays(730));

        Assert.Equal(1, await shop.Get<PlanMissingHandler>().HandleAsync(Stop));
        Assert.Equal(0, await shop.Get<PlanMissingHandler>().HandleAsync(Stop));

        var open = await OpenAsync(shop);
        Assert.Equal([TaskKind.Test, TaskKind.Inspect], open.Select(t => t.Kind).Order());
        Assert.All(open, t => Assert.InRange(t.DueAtUtc, shop.Now, shop.Now.AddDays(7)));
        Assert.Equal(open.Min(t => t.DueAtUtc), await shop.ReadAsync(db => db.Standings.Select(s => s.NextDueAtUtc).SingleAsync()));
    }

    [Theory, EachDatabase]
    public async Task PlanMissing_EmptyOrRetiredSump_PlansNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        (await shop.DrainAsync(Some.Start)).Done();
        await RawSql.ExecuteAsync(database, "DELETE FROM \"CareTasks\"");

        Assert.Equal(0, await shop.Get<PlanMissingHandler>().HandleAsync(Stop));
        Assert.Equal(0, await shop.CountAsync<CareTask>());
    }

    // A clock that runs ahead or is set back: the steps keep one open task each, what is done is planned again after the day it says.
    [Theory]
    [EachDatabase(-3.0)]
    [EachDatabase(-0.04)]
    [EachDatabase(-40.0)]
    public async Task EndTask_ClockSteppedBackSince_PlansOnceAfterTheDayDone(TestDatabase database, double days)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test, basis: IntervalBasis.FromLastDone));
        await shop.StepAsync(Some.Step(TaskKind.Inspect, days: 1));
        shop.Clock.Advance(TimeSpan.FromDays(20));
        await shop.StoreAsync(Some.Reading(takenAt: shop.Now));
        await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop);
        await using var other = shop.Another();
        other.Clock.AdjustTime(shop.Clock.GetUtcNow().AddDays(days));

        foreach (var handled in new[] { 0, 1 })
        {
            var inspect = (await OpenAsync(other)).Single(t => t.Kind == TaskKind.Inspect);
            (await other.Get<EndTaskHandler>().HandleAsync(new EndTask(inspect.Id, TaskState.Done), Some.Operator, isSupervisor: false, Stop)).Done();
            await other.Get<NoticeOverdueHandler>().HandleAsync(Stop);
            Assert.Equal(0, await other.Get<PlanMissingHandler>().HandleAsync(Stop));
            var open = await OpenAsync(other);
            Assert.Equal([TaskKind.Test, TaskKind.Inspect], open.Select(t => t.Kind).Order());
            Assert.True(open.Single(t => t.Kind == TaskKind.Inspect).DueAtUtc > inspect.DueAtUtc, $"time {handled}: an item was planned twice");
        }

        Assert.Equal(new DateOnly(2026, 3, 29), await DueAsync(shop, TaskKind.Test));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // Berlin changes its clocks on 29 March and 25 October 2026: a daily task is there once on every open day, on no other.
    [Theory]
    [EachDatabase("2026-03-26T10:00:00Z", ClosedDayPolicy.Later)]
    [EachDatabase("2026-10-22T10:00:00Z", ClosedDayPolicy.Earlier)]
    [EachDatabase("2026-03-26T10:00:00Z", ClosedDayPolicy.AsIs)]
    [EachDatabase("2026-10-22T10:00:00Z", ClosedDayPolicy.AsIs)]
    public async Task DailyTask_OverAClockChange_IsAskedForOnceEachDay(TestDatabase database, string from, ClosedDayPolicy policy)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        shop.Clock.SetUtcNow(DateTimeOffset.Parse(from, System.Globalization.CultureInfo.InvariantCulture));
        var calendar = (await shop.SetupAsync()).Calendar;
        await shop.StepAsync(Some.Step(TaskKind.Inspect, days: 1, anchor: calendar.ShopDayOf(shop.Now), closedDays: policy));
        var (days, first) = (new List<DateOnly>(), calendar.ShopDayOf(shop.Now));
        while (days.Count < 6)
        {
            var task = Assert.Single(await OpenAsync(shop));
            days.Add(CareSchedule.DueDayOf(task.DueAtUtc, calendar));
            shop.Clock.SetUtcNow(new DateTimeOffset(task.DueAtUtc.AddMinutes(-30)));
            (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(task.Id, TaskState.Done), Some.Operator, isSupervisor: false, Stop)).Done();
        }

        Assert.Equal(Enumerable.Range(0, 20).Select(first.AddDays).Where(d => policy == ClosedDayPolicy.AsIs || calendar.IsOpen(d)).Take(6), days);
    }

    private static Task<List<CareTask>> OpenAsync(ShopFixture shop) =>
        shop.ReadAsync(db => db.CareTasks.Where(t => t.State == TaskState.Open).OrderBy(t => t.DueAtUtc).ThenBy(t => t.Id).ToListAsync(Stop));

    private static async Task<DateOnly> DueAsync(ShopFixture shop, TaskKind kind) =>
        CareSchedule.DueDayOf((await OpenAsync(shop)).Single(t => t.Kind == kind).DueAtUtc, (await shop.Get<SetupCache>().CurrentAsync(Stop)).Calendar);
}
