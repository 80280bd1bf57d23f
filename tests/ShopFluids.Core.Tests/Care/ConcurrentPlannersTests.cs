using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Care;

/// <summary>Invariant 7: twenty instances of the program plan at once on one database, and nothing is planned twice.</summary>
public sealed class ConcurrentPlannersTests
{
    private const int Instances = 20;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task PlanMissing_TwentyInstancesAtOnce_MakeOneTaskForEachStep(TestDatabase database)
    {
        await using var planners = await Planners.OpenAsync(database);
        await RawSql.ExecuteAsync(database, "DELETE FROM \"CareTasks\"");

        var planned = await planners.AllAsync((instance, _) => instance.Get<PlanMissingHandler>().HandleAsync(Stop));

        Assert.Equal(1, planned.Sum());
        await AssertOneTaskForEachStepAsync(planners.Shop);
    }

    [Theory, EachDatabase]
    public async Task EndTask_TwentyInstancesEndTheSameTask_PlanTheNextOnce(TestDatabase database)
    {
        await using var planners = await Planners.OpenAsync(database);
        var skim = await planners.Shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.Skim));

        await planners.AllAsync((instance, _) => instance.Get<EndTaskHandler>().HandleAsync(new EndTask(skim.Id, TaskState.Done), Some.Operator, isSupervisor: false, Stop));

        Assert.Equal(2, await planners.Shop.ReadAsync(db => db.CareTasks.CountAsync(t => t.Kind == TaskKind.Skim)));
        await AssertOneTaskForEachStepAsync(planners.Shop);
        Assert.Empty((await planners.Shop.VerifyAsync()).Findings);
    }

    // A reading of low strength from each: one completes the test, one raises the flag, one asks for the top-up.
    [Theory, EachDatabase]
    public async Task Record_TwentyReadingsAtOnce_MakeOneTaskOfAKindAndCause(TestDatabase database)
    {
        await using var planners = await Planners.OpenAsync(database);

        await planners.AllAsync((instance, n) => instance.StoreAsync(Some.Reading(brix: 4.0m, takenAt: Some.Start.AddMinutes(-n))));

        Assert.Equal(Instances, await planners.Shop.CountAsync<Reading>());
        Assert.Equal(1, await planners.Shop.ReadAsync(db => db.CareTasks.CountAsync(t => t.Kind == TaskKind.Adjust)));
        Assert.Equal(2, await planners.Shop.ReadAsync(db => db.CareTasks.CountAsync(t => t.Kind == TaskKind.Test && t.StepId != null)));
        await AssertOneTaskForEachStepAsync(planners.Shop);
        Assert.Empty((await planners.Shop.VerifyAsync()).Findings);
    }

    // Everything that plans, at once: readings, ended tasks, additions of water, the timers.
    [Theory, EachDatabase]
    public async Task EveryPlannerAtOnce_LateShop_NeverHasTwoOpenTasksOfAKindAndCause(TestDatabase database)
    {
        await using var planners = await Planners.OpenAsync(database);
        planners.Advance(TimeSpan.FromDays(9));
        var open = await planners.Shop.ReadAsync(db => db.CareTasks.Where(t => t.Kind != TaskKind.Test).OrderBy(t => t.Id).ToListAsync(Stop));

        await planners.AllAsync<object>(async (instance, n) => (n % 5) switch
        {
            0 => await instance.StoreAsync(Some.Reading(brix: n == 0 ? 4.0m : 8.0m, takenAt: instance.Now.AddMinutes(-n))),
            1 => await instance.Get<EndTaskHandler>().HandleAsync(new EndTask(open[n % open.Count].Id, TaskState.Done), Some.Operator, isSupervisor: false, Stop),
            2 => await instance.Get<NoticeOverdueHandler>().HandleAsync(Stop),
            3 => await instance.Get<PlanMissingHandler>().HandleAsync(Stop),
            _ => (await instance.AddAsync(Some.Addition(instance.LotId, water: 1, concentrate: 0, at: instance.Now))).Done(),
        });

        await AssertOneTaskForEachStepAsync(planners.Shop);
        Assert.Empty((await planners.Shop.VerifyAsync()).Findings);
    }

    // Whatever the lock does, the database itself refuses a second one.
    [Theory, EachDatabase]
    public async Task Database_SecondOpenTaskOfAKindAndCause_IsRefused(TestDatabase database)
    {
        await using var planners = await Planners.OpenAsync(database);
        var task = await planners.Shop.ReadAsync(db => db.CareTasks.FirstAsync(Stop));
        await using var write = await planners.Shop.Get<ShopDatabase>().WriteAsync(Stop);
        write.Database.Add(new CareTask(Some.Id(), task.SumpId, task.Kind, task.Cause, task.StepId, task.DueAtUtc.AddDays(1), Some.Start, null, null));

        await Assert.ThrowsAsync<DbUpdateException>(() => write.FlushAsync(Stop));
    }

    private static async Task AssertOneTaskForEachStepAsync(ShopFixture shop)
    {
        var open = await shop.ReadAsync(db => db.CareTasks.Where(t => t.State == TaskState.Open).ToListAsync(Stop));
        Assert.Equal(open.Count, open.Select(t => (t.SumpId, t.Kind, t.Cause)).Distinct().Count());
        var steps = await shop.ReadAsync(db => db.CareSteps.OrderBy(s => s.Id).Select(s => (Guid?)s.Id).ToListAsync(Stop));
        Assert.Equal(steps, open.Where(t => t.StepId is not null).Select(t => t.StepId).Order());
    }

    private sealed class Planners(ShopFixture shop, IReadOnlyList<ShopFixture> others) : IAsyncDisposable
    {
        public ShopFixture Shop => shop;

        public static async Task<Planners> OpenAsync(TestDatabase database)
        {
            var shop = await ShopFixture.OpenAsync(database);
            await shop.StepAsync(Some.Step(TaskKind.Test, basis: IntervalBasis.FromLastDone));
            await shop.StepAsync(Some.Step(TaskKind.Skim));
            await shop.StepAsync(Some.Step(TaskKind.ChangeFilter, days: 0) with { IntervalMonths = 1 });
            await shop.StepAsync(Some.Step(TaskKind.Inspect, basis: IntervalBasis.FromLastDone, days: 1));
            return new(shop, [.. Enumerable.Range(1, Instances - 1).Select(_ => shop.Another())]);
        }

        public void Advance(TimeSpan time)
        {
            foreach (var instance in others.Prepend(shop))
            {
                instance.Clock.Advance(time);
            }
        }

        /// <summary>Lets every instance do its work at the same moment, each on a connection of its own.</summary>
        public async Task<T[]> AllAsync<T>(Func<ShopFixture, int, Task<T>> work)
        {
            using var start = new Barrier(Instances);
            return await Task.WhenAll(others.Prepend(shop).Select((instance, n) => Task.Factory.StartNew(
                () =>
                {
                    start.SignalAndWait(Stop);
                    return work(instance, n);
                },
                Stop,
                TaskCreationOptions.LongRunning,
                TaskScheduler.Default).Unwrap()));
        }

        public async ValueTask DisposeAsync()
        {
            foreach (var other in others)
            {
                await other.DisposeAsync();
            }

            await shop.DisposeAsync();
        }
    }
}
