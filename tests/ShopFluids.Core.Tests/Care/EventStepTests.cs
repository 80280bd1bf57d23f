using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Care;

/// <summary>Steps after a fill and after a flag: once for each, never twice, and gone with their charge.</summary>
public sealed class EventStepTests
{
    private static readonly DateOnly Today = new(2026, 3, 2);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task AfterFill_FillDoneAndFilledAgain_IsAskedForOncePerCharge(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);
        await shop.StepAsync(Some.Step(TaskKind.Inspect, basis: IntervalBasis.AfterFill, days: 3));
        Assert.Equal(0, await shop.CountAsync<CareTask>());

        (await shop.FillAsync(Some.Fill(shop.ChargeId, shop.FluidId, shop.LotId))).Done();
        var filledOn = CareSchedule.DueDayOf((await OneAsync(shop)).DueAtUtc, (await shop.SetupAsync()).Calendar).AddDays(-3);
        Assert.True(filledOn <= Today);
        await EndAsync(shop, (await OneAsync(shop)).Id);
        await shop.StoreAsync(Some.Reading());
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        Assert.Equal(0, await OpenAsync(shop, TaskKind.Inspect));

        shop.Clock.Advance(TimeSpan.FromDays(1));
        (await shop.DrainAsync(shop.Now)).Done();
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId) with { FilledAtUtc = shop.Now })).Done();

        var second = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.Inspect && t.State == TaskState.Open));
        Assert.Equal(Today.AddDays(4), CareSchedule.DueDayOf(second.DueAtUtc, (await shop.SetupAsync()).Calendar));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // The charge is gone, and with it what was to be looked at.
    [Theory, EachDatabase]
    public async Task AfterFill_DrainedBefore_IsWithdrawn(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);
        await shop.StepAsync(Some.Step(TaskKind.Inspect, basis: IntervalBasis.AfterFill, days: 30));
        (await shop.FillAsync(Some.Fill(shop.ChargeId, shop.FluidId, shop.LotId))).Done();

        (await shop.DrainAsync(shop.Now)).Done();

        Assert.Equal(TaskState.Withdrawn, (await OneAsync(shop)).State);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // A charge that was filled long before the step came is not asked for what its first days would have needed.
    [Theory]
    [EachDatabase(1, 0)]
    [EachDatabase(400, 1)]
    public async Task AfterFill_StepAddedLater_IsPlannedWhileItsDayHasNotPassed(TestDatabase database, int days, int open)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        shop.Clock.Advance(TimeSpan.FromDays(10));

        await shop.StepAsync(Some.Step(TaskKind.Inspect, basis: IntervalBasis.AfterFill, days: days));

        Assert.Equal(open, await OpenAsync(shop, TaskKind.Inspect));
    }

    [Theory, EachDatabase]
    public async Task AfterFlag_Raised_IsAskedForOnceAndReplaysTheSame(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Inspect, basis: IntervalBasis.AfterFlag, days: 14) with { EventParameter = ParameterCodes.Concentration });
        Assert.Equal(0, await shop.CountAsync<CareTask>());

        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        var task = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.Inspect));
        Assert.Equal(Today.AddDays(14), CareSchedule.DueDayOf(task.DueAtUtc, (await shop.SetupAsync()).Calendar));
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(brix: 3.9m, takenAt: shop.Now));
        await EndAsync(shop, task.Id);
        shop.Clock.Advance(TimeSpan.FromHours(1));
        await shop.StoreAsync(Some.Reading(brix: 3.9m, takenAt: shop.Now));

        Assert.Equal(0, await OpenAsync(shop, TaskKind.Inspect));
        Assert.Equal(1, await shop.ReadAsync(db => db.CareTasks.CountAsync(t => t.Kind == TaskKind.Inspect)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(Stop)).Differences);
    }

    // The reading that raised the flag was a slip: what was to be done after the flag goes with it.
    [Theory]
    [EachDatabase(8.0, 0)]
    [EachDatabase(4.1, 1)]
    public async Task AfterFlag_ReadingCorrected_GoesWithTheFlag(TestDatabase database, double brix, int open)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Inspect, basis: IntervalBasis.AfterFlag, days: 14));
        var outcome = await shop.StoreAsync(Some.Reading(brix: 4.0m));

        await shop.StoreAsync(Some.Reading(brix: (decimal)brix, supersedes: outcome.ReadingId, reason: "misread"));

        Assert.Equal(open, await OpenAsync(shop, TaskKind.Inspect));
        Assert.Empty((await shop.VerifyAsync()).Findings);
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(Stop)).Differences);
    }

    private static Task<CareTask> OneAsync(ShopFixture shop) => shop.ReadAsync(db => db.CareTasks.SingleAsync());

    private static Task<int> OpenAsync(ShopFixture shop, TaskKind kind) => shop.ReadAsync(db => db.CareTasks.CountAsync(t => t.Kind == kind && t.State == TaskState.Open));

    private static async Task EndAsync(ShopFixture shop, Guid id) =>
        (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(id, TaskState.Done), Some.Operator, isSupervisor: false, Stop)).Done();
}
