using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.DemoData;
using ShopFluids.Core.People;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.DemoData;

public sealed class DemoShopTests
{
    private const int Weeks = 8;
    private static readonly DateTimeOffset Now = new(2026, 11, 25, 9, 30, 0, TimeSpan.Zero);

    [Theory, EachDatabase]
    public async Task LoadAsync_EmptyDatabase_KeepsEveryInvariant(TestDatabase database)
    {
        using var folder = new DemoFolder(Weeks);
        var run = new DemoRun(database, Now);

        var loaded = (await run.LoadAsync(folder)).Done();

        Assert.True(loaded.IsNew);
        Assert.Empty((await run.VerifyAsync()).Findings);
        Assert.Empty((await run.ReplayAsync()).Differences);
        await using var db = database.Open();
        Assert.Equal(16, await db.Sumps.CountAsync(TestContext.Current.CancellationToken));
        Assert.All(await db.FluidLots.ToListAsync(TestContext.Current.CancellationToken), l => Assert.InRange(l.RemainingLitres, 0, l.ReceivedLitres));
        Assert.All(
            await db.Charges.GroupBy(c => c.SumpId).Select(g => g.Count(c => c.DrainedAtUtc == null)).ToListAsync(TestContext.Current.CancellationToken),
            open => Assert.Equal(1, open));
        Assert.True(await db.Readings.AllAsync(r => r.StoredAtUtc <= Now.UtcDateTime, TestContext.Current.CancellationToken));
        Assert.True(await db.CareTasks.AllAsync(t => t.EndedAtUtc == null || t.EndedAtUtc <= Now.UtcDateTime, TestContext.Current.CancellationToken));
        Assert.True(await db.CareTasks.AnyAsync(t => t.State == TaskState.Done && t.EndedByPersonId != null, TestContext.Current.CancellationToken));
        Assert.True(await db.Readings.AnyAsync(r => r.SupersedesId != null && r.CorrectionReason != null, TestContext.Current.CancellationToken));
    }

    [Theory, EachDatabase]
    public async Task LoadAsync_LoadedBefore_LeavesTheShopButForAFreshToken(TestDatabase database)
    {
        using var folder = new DemoFolder(2);
        var first = (await new DemoRun(database, Now).LoadAsync(folder)).Done();
        var before = await CountsAsync(database);

        var second = (await new DemoRun(database, Now.AddDays(1)).LoadAsync(folder)).Done();

        Assert.False(second.IsNew);
        Assert.Equal(before, await CountsAsync(database));
        Assert.NotEqual(first.ApiToken, second.ApiToken);
        Assert.Equal(first.SignIns, second.SignIns);
        await using var db = database.Open();
        var working = Assert.Single(await db.ApiTokens.Where(t => t.RevokedAtUtc == null).ToListAsync(TestContext.Current.CancellationToken));
        Assert.Equal(MakeTokenHandler.HashOf(second.ApiToken), working.Hash);
    }

    [Theory, EachDatabase]
    public async Task LoadAsync_DatabaseOfAnotherShop_IsRefusedAndChangesNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        using var folder = new DemoFolder(2);
        var before = await CountsAsync(database);

        var refused = (await new DemoRun(database, Now).LoadAsync(folder)).Refused();

        Assert.IsType<DemoBrokenOff>(refused);
        Assert.Equal(before, await CountsAsync(database));
    }

    [Fact]
    public async Task LoadAsync_SameDayTwice_GivesTheSameReadingsAndOutcomes()
    {
        using var folder = new DemoFolder(Weeks);
        var first = await StoryAsync(folder);
        var second = await StoryAsync(folder);

        Assert.NotEmpty(first);
        Assert.Equal(first, second);
    }

    [Fact]
    public async Task LoadAsync_SignIns_AreOneOfEachRoleAndFitTheAccountRules()
    {
        using var folder = new DemoFolder(2);
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        var run = new DemoRun(database, Now);

        var loaded = (await run.LoadAsync(folder)).Done();

        Assert.Equal(["operator", "supervisor", "auditor"], loaded.SignIns.Select(s => s.Role));
        Assert.All(loaded.SignIns, s => Assert.InRange(s.Password.Length, AccountRules.MinimumPasswordLength, AccountRules.MaximumPasswordLength));
        Assert.Equal(100, run.Progress[^1].Percent);
        Assert.Equal(run.Progress.OrderBy(p => p.Percent), run.Progress);
    }

    private static async Task<List<string>> StoryAsync(DemoFolder folder)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        (await new DemoRun(database, Now).LoadAsync(folder)).Done();
        await using var db = database.Open();
        var readings = await db.Readings.Include(r => r.Measurements).OrderBy(r => r.Id).ToListAsync(TestContext.Current.CancellationToken);
        var additions = await db.Additions.OrderBy(a => a.AddedAtUtc).ThenBy(a => a.WaterLitres).ToListAsync(TestContext.Current.CancellationToken);
        return
        [
            .. readings.Select(r => FormattableString.Invariant(
                $"{r.Id} {r.TakenAtUtc:O} {r.Fingerprint} {r.Outcome?.Verdict} {r.Outcome?.Recipe} {string.Join(',', r.Outcome?.Raised.Select(f => $"{f.Rule} {f.Parameter} {f.Severity}") ?? [])}")),
            .. additions.Select(a => FormattableString.Invariant($"{a.AddedAtUtc:O} {a.WaterLitres} {a.ConcentrateLitres} {a.ReadingId} {a.LotId}")),
        ];
    }

    private static async Task<(int Readings, int Additions, int Tasks, int Sites, int People)> CountsAsync(TestDatabase database)
    {
        await using var db = database.Open();
        var stop = TestContext.Current.CancellationToken;
        return (await db.Readings.CountAsync(stop), await db.Additions.CountAsync(stop), await db.CareTasks.CountAsync(stop), await db.Sites.CountAsync(stop), await db.Users.CountAsync(stop));
    }
}
