using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Record;

/// <summary>Invariant 12: the chain of the record. Rows beside it: see <see cref="TamperedRowTests"/>.</summary>
public sealed class VerifyQueryTests
{
    [Theory, EachDatabase]
    public async Task RunAsync_Untouched_FindsNothing(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);

        var report = await shop.VerifyAsync();

        Assert.Empty(report.Findings);
        Assert.Equal(1, report.Standings);
        Assert.Equal(report.Entries, await shop.CountAsync<RecordEntry>());
        Assert.Equal(report.HeadHash, await shop.ReadAsync(db => db.RecordHead.Select(h => h.Hash).SingleAsync()));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_FreshDatabase_FindsNothing(TestDatabase database)
    {
        await using var shop = ShopFixture.Empty(database);

        var report = await shop.VerifyAsync();

        Assert.Empty(report.Findings);
        Assert.Equal((0L, RecordEntry.FirstPreviousHash), (report.Entries, report.HeadHash));
    }

    [Theory]
    [EachDatabase("ActorName", "Somebody else")]
    [EachDatabase("Code", "other.act")]
    [EachDatabase("Subject", "S-08")]
    [EachDatabase("Changes", "[]")]
    [EachDatabase("Changes", "no json")]
    [EachDatabase("Changes", "{}")]
    [EachDatabase("Changes", "[1]")]
    [EachDatabase("Changes", "[{\"entity\":1,\"key\":2}]")]
    [EachDatabase("Changes", "[{\"entity\":\"Sump\"}]")]
    [EachDatabase("Changes", "[{\"entity\":\"\\ud800\",\"key\":\"x\"}]")]
    [EachDatabase("Hash", "0000")]
    public async Task RunAsync_ChangedEntry_IsFoundAndLocated(TestDatabase database, string column, string value)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        await RawSql.ExecuteAsync(database, $"""UPDATE "RecordEntries" SET "{column}" = '{value}' WHERE "Sequence" = 5""");

        Assert.Contains(new VerifyFinding(VerifyProblem.EntryChanged, "RecordEntry 5", 5), (await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_ChangedTimeOrActor_IsFound(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        await RawSql.ExecuteAsync(database, """UPDATE "RecordEntries" SET "ActorId" = NULL WHERE "Sequence" = 5""");
        await RawSql.ExecuteAsync(database, """UPDATE "RecordEntries" SET "AtUtc" = '2020-01-01 00:00:00Z' WHERE "Sequence" = 6""");

        Assert.Equal(
            [new VerifyFinding(VerifyProblem.EntryChanged, "RecordEntry 5", 5), new VerifyFinding(VerifyProblem.EntryChanged, "RecordEntry 6", 6)],
            (await shop.VerifyAsync()).Findings);
    }

    // SQLite keeps anything in any column; PostgreSQL keeps moments that no program can hold.
    [Theory, EachDatabase]
    public async Task RunAsync_EntryThatCannotBeRead_IsLocatedAndTheOthersAreRead(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        var before = await shop.VerifyAsync();
        var at = database.Engine == DatabaseEngine.Sqlite ? "x" : "200000-01-01 00:00:00Z";
        await RawSql.ExecuteAsync(database, $"""UPDATE "RecordEntries" SET "AtUtc" = '{at}' WHERE "Sequence" = 5""");

        var report = await shop.VerifyAsync();

        Assert.Equal(new VerifyFinding(VerifyProblem.EntryChanged, "RecordEntry 5", 5), report.Findings[0]);
        Assert.DoesNotContain(report.Findings, f => f.Problem is VerifyProblem.ChainBroken or VerifyProblem.HeadMismatch);
        Assert.Equal((before.Entries, before.HeadHash, before.Rows), (report.Entries, report.HeadHash, report.Rows));
    }

    // Its hash made to fit: the entry still says nothing that the program would write.
    [Theory, EachDatabase]
    public async Task RunAsync_ForgedEntryThatListsNoRows_IsLocated(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        var entry = await shop.ReadAsync(db => db.RecordEntries.SingleAsync(e => e.Sequence == 5));
        var forged = new RecordEntry(5, new Act(entry.Code, new Actor(entry.ActorId, entry.ActorName), entry.AtUtc, entry.Subject), "{}", entry.PreviousHash);
        await RawSql.ExecuteAsync(database, $"""UPDATE "RecordEntries" SET "Changes" = '{forged.Changes}', "Hash" = '{forged.Hash}' WHERE "Sequence" = 5""");

        Assert.Contains(new VerifyFinding(VerifyProblem.EntryChanged, "RecordEntry 5", 5), (await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_HeadDeleted_IsSaidAndTheRestIsChecked(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        var before = await shop.VerifyAsync();
        await RawSql.ExecuteAsync(database, """DELETE FROM "RecordHead" """);

        var report = await shop.VerifyAsync();

        Assert.Equal([new VerifyFinding(VerifyProblem.HeadMismatch, "RecordHead", before.Entries)], report.Findings);
        Assert.Equal((before.Entries, before.HeadHash, before.Rows, before.Standings), (report.Entries, report.HeadHash, report.Rows, report.Standings));
    }

    // Changed together with its own hash: the seal is of another one, and the next entry no longer follows.
    [Theory, EachDatabase]
    public async Task RunAsync_EntryChangedWithItsHash_BreaksTheChainBehindIt(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        var entry = await shop.ReadAsync(db => db.RecordEntries.SingleAsync(e => e.Sequence == 5));
        var forged = new RecordEntry(5, new Act(entry.Code, new Actor(entry.ActorId, entry.ActorName), entry.AtUtc, "Somebody else"), entry.Changes, entry.PreviousHash);
        await RawSql.ExecuteAsync(database, $"""UPDATE "RecordEntries" SET "Subject" = 'Somebody else', "Hash" = '{forged.Hash}' WHERE "Sequence" = 5""");

        Assert.Equal(
            [new VerifyFinding(VerifyProblem.NotSealed, "RecordEntry 5", 5), new VerifyFinding(VerifyProblem.ChainBroken, "RecordEntry 6", 6)],
            (await shop.VerifyAsync()).Findings);
    }

    [Theory]
    [EachDatabase(1, 2)]
    [EachDatabase(5, 6)]
    public async Task RunAsync_RemovedEntry_IsFoundAtTheGap(TestDatabase database, int removed, int located)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        await RawSql.ExecuteAsync(database, $"""DELETE FROM "RecordEntries" WHERE "Sequence" = {removed}""");

        Assert.Contains(new VerifyFinding(VerifyProblem.ChainBroken, $"RecordEntry {located}", located), (await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_TailCutOff_IsFoundAtTheHead(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        var last = (await shop.VerifyAsync()).Entries;
        await RawSql.ExecuteAsync(database, $"""DELETE FROM "RecordEntries" WHERE "Sequence" > {last - 3}""");

        Assert.Contains(new VerifyFinding(VerifyProblem.HeadMismatch, "RecordHead", last), (await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_TailCutOffWithTheHead_LeavesRowsThatTheRecordDoesNotSay(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        var reading = await shop.StoreAsync(Some.Reading(takenAt: shop.Now));
        var last = (await shop.VerifyAsync()).Entries;
        await RawSql.ExecuteAsync(database, $"""DELETE FROM "RecordEntries" WHERE "Sequence" = {last}""");
        await RawSql.ExecuteAsync(database, $"""UPDATE "RecordHead" SET "Sequence" = {last - 1}, "Hash" = (SELECT "Hash" FROM "RecordEntries" WHERE "Sequence" = {last - 1})""");

        Assert.Contains(new VerifyFinding(VerifyProblem.RowUnrecorded, $"Reading {reading.ReadingId}"), (await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_TwoEntriesReordered_IsFound(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        await RawSql.ExecuteAsync(database, """UPDATE "RecordEntries" SET "Sequence" = -5 WHERE "Sequence" = 5""");
        await RawSql.ExecuteAsync(database, """UPDATE "RecordEntries" SET "Sequence" = 5 WHERE "Sequence" = 6""");
        await RawSql.ExecuteAsync(database, """UPDATE "RecordEntries" SET "Sequence" = 6 WHERE "Sequence" = -5""");

        var findings = (await shop.VerifyAsync()).Findings;

        Assert.Contains(new VerifyFinding(VerifyProblem.ChainBroken, "RecordEntry 5", 5), findings);
        Assert.Contains(new VerifyFinding(VerifyProblem.EntryChanged, "RecordEntry 6", 6), findings);
    }

    // Invariant 14.
    [Theory]
    [EachDatabase("\"VolumeLitres\" = 1")]
    [EachDatabase("\"Verdict\" = 1")]
    [EachDatabase("\"OpenFlagCount\" = 0")]
    [EachDatabase("\"NextDueAtUtc\" = NULL")]
    [EachDatabase("\"Facts\" = 'no json'")]
    [EachDatabase("\"Facts\" = NULL")]
    public async Task RunAsync_StandingChangedByHand_IsNamed(TestDatabase database, string change)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        await RawSql.ExecuteAsync(database, $"""UPDATE "Standings" SET {change}""");

        Assert.Equal([new VerifyFinding(VerifyProblem.StandingDiffers, "Standing S-07")], (await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_WhileReadingsAreStored_SeesOneMoment(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        await using var other = shop.Another();
        var writing = Task.Run(async () =>
        {
            for (var n = 0; n < 30; n++)
            {
                other.Clock.Advance(TimeSpan.FromMinutes(1));
                await other.StoreAsync(Some.Reading(brix: 5 + (n % 5), takenAt: other.Now));
            }
        }, TestContext.Current.CancellationToken);

        do
        {
            Assert.Empty((await shop.VerifyAsync()).Findings);
        }
        while (!writing.IsCompleted);

        await writing;
    }
}
