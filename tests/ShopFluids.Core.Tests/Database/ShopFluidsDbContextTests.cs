using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Database;

/// <summary>What the context refuses, and what a write that is not committed leaves: nothing.</summary>
public sealed class ShopFluidsDbContextTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task SaveChangesAsync_RecordedEntityWithoutAct_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var db = database.Open();
        db.Add(new Area(Some.Id(), shop.SiteId, "Around the record", 1));

        await Assert.ThrowsAsync<InvalidOperationException>(() => db.SaveChangesAsync(Stop));
        Assert.Throws<NotSupportedException>(() => db.SaveChanges());
        Assert.Equal(1, await shop.CountAsync<Area>());
    }

    [Theory, EachDatabase]
    public async Task SaveChangesAsync_DeletedRowWithoutAct_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var db = database.Open();
        db.Remove(await db.Additions.FirstAsync(Stop));

        await Assert.ThrowsAsync<InvalidOperationException>(() => db.SaveChangesAsync(Stop));
    }

    [Theory]
    [EachDatabase(DateTimeKind.Local)]
    [EachDatabase(DateTimeKind.Unspecified)]
    public async Task FlushAsync_TimeThatIsNotUtc_IsRefused(TestDatabase database, DateTimeKind kind)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var write = await shop.Get<ShopDatabase>().WriteAsync(Stop);
        write.Database.Add(new Reading(Some.Id(), shop.SumpId, shop.ChargeId, DateTime.SpecifyKind(Some.Start, kind), Some.Start, Guid.Empty, "", ""));

        var refused = await Assert.ThrowsAnyAsync<Exception>(() => write.FlushAsync(Stop));
        Assert.Contains($"kind {kind}", refused is DbUpdateException { InnerException: { } inner } ? inner.Message : refused.Message, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task DisposeAsync_WithoutCommit_LeavesNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.FootprintAsync();
        await using (var write = await shop.Get<ShopDatabase>().WriteAsync(Stop))
        {
            write.Database.Add(new Removal(Some.Id(), shop.ChargeId, Some.Start, 1, RemovalReasons.Swap, Guid.Empty));
            await write.FlushAsync(Stop);
        }

        Assert.Equal(before, await shop.FootprintAsync());
        await shop.StoreAsync(Some.Reading());
    }

    [Theory, EachDatabase]
    public async Task CommitAsync_NothingChanged_WritesNoEntry(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.FootprintAsync();
        await using (var write = await shop.Get<ShopDatabase>().WriteAsync(Stop))
        {
            await write.CommitAsync(new Act("nothing", Some.Operator, Some.Start, ""), Stop);
        }

        Assert.Equal(before, await shop.FootprintAsync());
    }

    // The second writer waits for the first and then sees what it stored.
    [Theory, EachDatabase]
    public async Task WriteAsync_SecondWriter_TakesTurns(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var first = await shop.Get<ShopDatabase>().WriteAsync(Stop);
        var second = Task.Run(async () =>
        {
            await using var write = await shop.Get<ShopDatabase>().WriteAsync(Stop);
            return await write.Database.Removals.CountAsync(Stop);
        }, Stop);
        first.Database.Add(new Removal(Some.Id(), shop.ChargeId, Some.Start, 1, RemovalReasons.Swap, Guid.Empty));
        await first.CommitAsync(new Act(ActCodes.RemovalStored, Some.Operator, Some.Start, "S-07"), Stop);
        await first.DisposeAsync();

        Assert.Equal(1, await second);
    }

    [Theory, EachDatabase]
    public async Task SaveChangesAsync_VersionMovedOn_IsAConflict(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var stale = database.Open();
        var standing = await stale.Standings.SingleAsync(Stop);
        await shop.StoreAsync(Some.Reading());
        standing.Set(null, null, null, null);

        await Assert.ThrowsAsync<DbUpdateConcurrencyException>(() => stale.SaveChangesAsync(Stop));
    }

    [Theory, EachDatabase]
    public async Task Model_IsWhatTheMigrationsMake(TestDatabase database)
    {
        await using var db = database.Open();

        Assert.False(db.Database.HasPendingModelChanges());
        Assert.Empty(await db.Database.GetPendingMigrationsAsync(Stop));
    }

    [Theory, EachDatabase]
    public async Task Read_AfterAMoment_GivesUtcToTheMillisecond(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var taken = Some.Start.AddTicks(1_234_567);

        await shop.StoreAsync(Some.Reading(takenAt: taken));

        var stored = await shop.ReadAsync(db => db.Readings.Select(r => r.TakenAtUtc).SingleAsync());
        Assert.Equal((Some.Start.AddMilliseconds(123), DateTimeKind.Utc), (stored, stored.Kind));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }
}
