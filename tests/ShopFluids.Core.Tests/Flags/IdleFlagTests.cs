using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules;
using ShopFluids.Rules.Idle;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Flags;

/// <summary>A sump without a sign of life is flagged once, with work that the next reading ends.</summary>
public sealed class IdleFlagTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    // Read on Monday 2 March: the tenth open day that begins after it is Monday 16 March, 06:00 in Berlin.
    [Theory]
    [EachDatabase("2026-03-16T04:59:59Z", 0)]
    [EachDatabase("2026-03-16T05:00:00Z", 1)]
    [EachDatabase("2026-12-16T05:00:00Z", 1)]
    public async Task Notice_NoSignOfLife_ManyInstancesRaiseOneWithItsWork(TestDatabase database, string now, int expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        await shop.StoreAsync(Some.Reading());
        foreach (var instance in new[] { shop, other })
        {
            instance.Clock.SetUtcNow(DateTimeOffset.Parse(now, System.Globalization.CultureInfo.InvariantCulture));
        }

        var raised = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(() => NoticeAsync(n % 2 == 0 ? shop : other), Stop)));

        Assert.Equal(expected, raised.Sum());
        Assert.Equal(expected, await shop.CountAsync<Flag>());
        Assert.Equal(expected == 0 ? [] : [TaskKind.Test, TaskKind.Circulate], await shop.ReadAsync(db => db.CareTasks.Where(t => t.Cause == "idle:").OrderBy(t => t.Kind).Select(t => t.Kind).ToListAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(Stop)).Differences);
    }

    [Theory, EachDatabase]
    public async Task Record_NextReading_EndsTheFlagAndItsTest(TestDatabase database)
    {
        await using var shop = await IdleAsync(database);

        var outcome = await shop.StoreAsync(Some.Reading(takenAt: shop.Now));

        Assert.Contains(outcome.Cleared, f => f.Rule == IdleRule.RuleCode);
        Assert.Equal((TaskState.Done, TaskState.Withdrawn), (await StateAsync(shop, TaskKind.Test), await StateAsync(shop, TaskKind.Circulate)));
        Assert.Equal(0, await NoticeAsync(shop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(Stop)).Differences);
    }

    [Theory, EachDatabase]
    public async Task Close_ByASupervisor_IsNotRaisedAgainBeforeASignOfLife(TestDatabase database)
    {
        await using var shop = await IdleAsync(database);
        var flag = await shop.ReadAsync(db => db.Flags.SingleAsync());

        (await shop.Get<CloseFlagHandler>().HandleAsync(new CloseFlag(flag.Id, "Sold, still here"), Some.Supervisor, Stop)).Done();

        Assert.Equal(TaskState.Withdrawn, await StateAsync(shop, TaskKind.Circulate));
        shop.Clock.Advance(TimeSpan.FromDays(60));
        Assert.Equal(0, await NoticeAsync(shop));
        (await shop.AddAsync(Some.Addition(shop.LotId, at: shop.Now))).Done();
        shop.Clock.Advance(TimeSpan.FromDays(20));
        Assert.Equal(1, await NoticeAsync(shop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // Read on Monday 2 March: the third open day that begins after it is Thursday 5 March.
    [Theory, EachDatabase]
    public async Task Notice_DaysSetForTheSump_CountsByThemAndTheFlagKeepsThem(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        var command = new SetRule(Some.Id(), IdleRule.RuleCode, null, shop.SumpId, null, new Dictionary<string, decimal> { [IdleRule.AllowedShopDays] = 3 }, "Magnesium beside it", 0);
        (await shop.Get<SetRuleHandler>().HandleAsync(command, Some.Supervisor, Stop)).Done();

        shop.Clock.SetUtcNow(new DateTimeOffset(2026, 3, 5, 4, 59, 59, TimeSpan.Zero));
        Assert.Equal(0, await NoticeAsync(shop));
        shop.Clock.Advance(TimeSpan.FromSeconds(1));
        Assert.Equal(1, await NoticeAsync(shop));

        var flag = await shop.ReadAsync(db => db.Flags.SingleAsync());
        Assert.Equal((3m, 3m, 2m), (flag.Numbers["days"], flag.Tuning?[IdleRule.AllowedShopDays], flag.Tuning?[IdleRule.TestLateShopDays]));
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(Stop)).Differences);
    }

    private static async Task<ShopFixture> IdleAsync(TestDatabase database)
    {
        var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        shop.Clock.Advance(TimeSpan.FromDays(21));
        Assert.Equal(1, await NoticeAsync(shop));
        return shop;
    }

    private static Task<int> NoticeAsync(ShopFixture shop) => shop.Get<NoticeOverdueHandler>().HandleAsync(Stop);

    private static Task<TaskState> StateAsync(ShopFixture shop, TaskKind kind) => shop.ReadAsync(db => db.CareTasks.Where(t => t.Kind == kind).Select(t => t.State).SingleAsync());
}
