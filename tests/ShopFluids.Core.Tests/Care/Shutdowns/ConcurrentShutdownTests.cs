using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Database;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Care.Shutdowns;

/// <summary>Several instances plan and end shutdowns at once: each is planned once, with its work, and ended once.</summary>
public sealed class ConcurrentShutdownTests
{
    private const int Presses = 12;
    private static readonly DateOnly First = new(2026, 3, 16);
    private static readonly DateOnly Last = new(2026, 3, 29);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Plan_SameAtOnce_IsPlannedOnceWithItsWork(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        var command = new PlanShutdown(Some.Id(), null, First, Last, "Works holiday");

        var answers = await AllAsync(n => PlanAsync(n % 2 == 0 ? shop : other, command));

        Assert.Equal(1, answers.Count(a => a.Done().IsNew));
        await AssertPlannedOnceAsync(shop);
    }

    [Theory, EachDatabase]
    public async Task Plan_SameDaysAtOnce_OneIsPlannedAndTheOthersAreToldOfIt(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();

        var answers = await AllAsync(n => PlanAsync(n % 2 == 0 ? shop : other, new(Some.Id(), null, First, Last, "Works holiday")));

        Assert.Equal((1, Presses - 1), (answers.Count(a => a.Value is not null), answers.Count(a => a.Error == new ShutdownsOverlap(First, Last))));
        await AssertPlannedOnceAsync(shop);
    }

    [Theory, EachDatabase]
    public async Task End_AtOnce_IsEndedOnceAndLeavesNoWork(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        var planned = (await PlanAsync(shop, new(Some.Id(), null, First, Last, "Works holiday"))).Done();

        var answers = await AllAsync(n => (n % 2 == 0 ? shop : other).Get<EndShutdownHandler>().HandleAsync(new EndShutdown(planned.Id), Some.Supervisor, Stop));

        Assert.Equal((1, Presses - 1), (answers.Count(a => a.Value is not null), answers.Count(a => a.Error == new ShutdownIsOver(planned.Id))));
        Assert.Equal(0, await shop.ReadAsync(db => db.CareTasks.CountAsync(t => t.State == TaskState.Open, Stop)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    private static async Task AssertPlannedOnceAsync(ShopFixture shop)
    {
        Assert.Equal(1, await shop.CountAsync<Shutdown>());
        var open = await shop.ReadAsync(db => db.CareTasks.Where(t => t.State == TaskState.Open).Select(t => new { t.Kind, t.Cause }).ToListAsync(Stop));
        Assert.NotEmpty(open);
        Assert.Equal(open.Count, open.Distinct().Count());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    private static Task<Result<PlannedShutdown>> PlanAsync(ShopFixture shop, PlanShutdown command) => shop.Get<PlanShutdownHandler>().HandleAsync(command, Some.Supervisor, Stop);

    private static Task<T[]> AllAsync<T>(Func<int, Task<T>> press) => Task.WhenAll(Enumerable.Range(0, Presses).Select(n => Task.Run(() => press(n), Stop)));
}
