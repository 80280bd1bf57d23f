using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.DemoData;
using ShopFluids.Core.DemoData.Generated;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Setup;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.DemoData;

public sealed class GeneratedShopTests
{
    private static readonly DateTimeOffset Now = new(2026, 11, 25, 9, 30, 0, TimeSpan.Zero);
    private static readonly ShopSize Small = new(Sumps: 5, Years: 1, Seed: 7);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task LoadAsync_EmptyDatabase_IsSoundAndJudgedAsTheRulesJudge(TestDatabase database)
    {
        var sealer = new RecordSealer(RecordKey.Make(RecordFingerprint.OfNothing));

        // So many that every kind of recipe is poured, also those that take fluid out first.
        var done = (await LoadAsync(database, new ShopSize(Sumps: 40, Years: 1, Seed: 1), sealer)).Done();

        var shop = new ShopDatabase(database.Factory, database.Provider, sealer);
        Assert.Empty((await new VerifyQuery(shop, database.Provider, sealer).RunAsync([], Stop)).Findings);
        var replay = await new ReplayQuery(shop, new SetupCache(shop, database.Provider), database.Provider).RunAsync(Stop);
        Assert.Empty(replay.Differences);
        Assert.Equal(done.Readings, replay.Readings);
        Assert.Equal(40, done.Sumps);
        Assert.InRange(done.Readings, 40 * 50, 40 * 150);
    }

    [Theory, EachDatabase]
    public async Task LoadAsync_EmptyDatabase_LooksLikeAShop(TestDatabase database)
    {
        (await LoadAsync(database, Small with { Sumps = 12 }, new RecordSealer())).Done();

        await using var db = database.Open();
        Assert.Equal(12, await db.Charges.CountAsync(c => c.DrainedAtUtc == null, Stop));
        Assert.True(await db.Charges.AnyAsync(c => c.DrainedAtUtc != null, Stop));
        Assert.True(await db.Flags.AnyAsync(f => f.EndedAtUtc != null, Stop));
        Assert.True(await db.CareTasks.AnyAsync(t => t.State == TaskState.Open && t.StepId != null, Stop));
        Assert.All(Enum.GetValues<TaskState>().Except([TaskState.Skipped]), state => Assert.Contains(state, db.CareTasks.Select(t => t.State).Distinct().ToList()));
        Assert.True(await db.Additions.AnyAsync(a => a.ReadingId != null && a.LotId != null, Stop));
        Assert.All(await db.FluidLots.ToListAsync(Stop), l => Assert.InRange(l.RemainingLitres, 0, l.ReceivedLitres));
        Assert.True(await db.Readings.AllAsync(r => r.StoredAtUtc <= Now.UtcDateTime, Stop));
        var times = await db.RecordEntries.OrderBy(e => e.Sequence).Select(e => e.AtUtc).ToListAsync(Stop);
        Assert.Equal(times.Order(), times);
        Assert.True(await db.Standings.AllAsync(s => s.LastReadAtUtc > Now.UtcDateTime.AddDays(-14), Stop));
    }

    [Fact]
    public async Task LoadAsync_SameSeedAndDay_MakesTheSameHistory()
    {
        var first = await StoryAsync(Small);
        Assert.NotEmpty(first);
        Assert.Equal(first, await StoryAsync(Small));
        Assert.NotEqual(first, await StoryAsync(Small with { Seed = 8 }));
    }

    [Theory, EachDatabase]
    public async Task LoadAsync_DatabaseOfAShop_IsRefusedAndChangesNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.FootprintAsync();

        Assert.IsType<ShopNotEmpty>((await LoadAsync(database, Small, new RecordSealer())).Refused());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(5001, 1)]
    [InlineData(1, 0)]
    [InlineData(1, 21)]
    public async Task LoadAsync_SizeOutOfRange_Throws(int sumps, int years)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);

        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() => LoadAsync(database, new ShopSize(sumps, years, 1), new RecordSealer()));
    }

    private static async Task<Result<GeneratedDone>> LoadAsync(TestDatabase database, ShopSize size, RecordSealer sealer)
    {
        using var folder = new DemoFolder(weeks: 1);
        return await new GeneratedShop(database.Factory, database.Provider, sealer, new FakeTimeProvider(Now)).LoadAsync(folder.Path, size, new Progress<DemoProgress>(), Stop);
    }

    private static async Task<List<string>> StoryAsync(ShopSize size)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        (await LoadAsync(database, size, new RecordSealer())).Done();
        await using var db = database.Open();
        var readings = await db.Readings.OrderBy(r => r.Id).ToListAsync(Stop);
        var tasks = await db.CareTasks.OrderBy(t => t.CreatedAtUtc).ThenBy(t => t.Cause).ThenBy(t => t.DueAtUtc).ToListAsync(Stop);
        var additions = await db.Additions.OrderBy(a => a.Id).ToListAsync(Stop);
        return
        [
            .. readings.Select(r => FormattableString.Invariant($"{r.Id} {r.TakenAtUtc:O} {r.Fingerprint} {JsonColumn.Write(r.Outcome)}")),
            .. tasks.Select(t => FormattableString.Invariant($"{t.Id} {t.Kind} {t.Cause} {t.DueAtUtc:O} {t.State} {t.EndedAtUtc:O}")),
            .. additions.Select(a => FormattableString.Invariant($"{a.Id} {a.AddedAtUtc:O} {a.WaterLitres} {a.ConcentrateLitres} {a.LotId} {a.ReadingId}")),
        ];
    }
}
