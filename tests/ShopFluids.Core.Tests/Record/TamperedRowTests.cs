using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Record;
using ShopFluids.Core.Tests.Record.Tampering;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Record;

/// <summary>
/// Invariant 12, row by row: whatever is changed by hand in a recorded table, verification names the row. The entities and columns come from the
/// model, so a new one is covered from its first day: it fails here until <see cref="BusyShop"/> has one.
/// </summary>
public sealed class TamperedRowTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    // SQLite keeps any bytes as text. Bytes that are none would be hashed as the sign for "no sign", which the entry holds already.
    [Fact]
    public async Task RunAsync_SignOfAnEntryMadeBytesThatAreNoText_NamesTheEntry()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(note: "smells \ufffd"));
        var last = await shop.ReadAsync(db => db.RecordEntries.MaxAsync(e => e.Sequence, Stop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
        await using var sql = await RawSql.OpenAsync(database);

        await sql.ExecuteAsync("""UPDATE "RecordEntries" SET "Changes" = replace("Changes", char(65533), CAST(x'FF' AS TEXT)) WHERE "Sequence" = @value""", last);

        Assert.Contains((await shop.VerifyAsync()).Findings, f => f == new VerifyFinding(VerifyProblem.EntryChanged, $"RecordEntry {last}", last));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_AnyColumnOfAnyRecordedRowChanged_NamesTheRow(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        await using var sql = await RawSql.OpenAsync(database);
        foreach (var row in await FirstOfEachAsync(database))
        {
            foreach (var property in row.Type.GetProperties().Where(p => !p.IsPrimaryKey()))
            {
                var column = property.GetColumnName();
                var before = await sql.ScalarAsync($"""SELECT "{column}" FROM {row.Table} WHERE {row.Where}""");
                if (before is null or DBNull)
                {
                    continue;
                }

                await sql.ExecuteAsync($"""UPDATE {row.Table} SET "{column}" = @value WHERE {row.Where}""", RecordedRows.Another(before, property));
                var findings = (await shop.VerifyAsync()).Findings;
                Assert.True(findings.Any(f => f.Problem == VerifyProblem.RowChanged && f.Where == row.Name), $"{row.Type.ShortName()}.{property.Name} was changed and not found: {string.Join("; ", findings)}");
                await sql.ExecuteAsync($"""UPDATE {row.Table} SET "{column}" = @value WHERE {row.Where}""", before);
            }
        }

        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_AnyRecordedRowDeleted_NamesTheRow(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        await using var sql = await RawSql.OpenAsync(database);
        foreach (var row in await FirstOfEachAsync(database))
        {
            // Never committed: the next one is deleted from a shop that is whole.
            await using var undone = await sql.Context.Database.BeginTransactionAsync(Stop);
            await sql.ExecuteAsync($"DELETE FROM {row.Table} WHERE {row.Where}");

            var findings = (await shop.Get<VerifyQuery>().RunAsync(sql.Context, [], Stop)).Findings;

            Assert.Contains(findings, f => f.Problem == VerifyProblem.RowMissing && f.Where == row.Name);
        }
    }

    [Theory, EachDatabase]
    public async Task RunAsync_RowInsertedByHand_IsNamed(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        var id = Some.Id();
        var text = database.Engine == DatabaseEngine.Sqlite ? id.ToString().ToUpperInvariant() : id.ToString();
        await RawSql.ExecuteAsync(database, $"""INSERT INTO "Areas" ("Id", "SiteId", "Name", "WalkOrder", "Version") SELECT '{text}', "SiteId", 'Smuggled in', 9, 1 FROM "Areas" """);

        Assert.Equal([new VerifyFinding(VerifyProblem.RowUnrecorded, $"Area {id}")], (await shop.VerifyAsync()).Findings);
    }

    // Not only other content: content that cannot be read at all, or that lacks every part.
    [Theory]
    [EachDatabase("no json")]
    [EachDatabase("{}")]
    public async Task RunAsync_JsonColumnMadeUnreadable_NamesTheRowAndReadsTheOthers(TestDatabase database, string content)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        await using var sql = await RawSql.OpenAsync(database);
        foreach (var row in await FirstOfEachAsync(database))
        {
            foreach (var property in row.Type.GetProperties().Where(RecordedRows.IsJson))
            {
                var column = property.GetColumnName();
                var before = await sql.ScalarAsync($"""SELECT "{column}" FROM {row.Table} WHERE {row.Where}""");
                await sql.ExecuteAsync($"""UPDATE {row.Table} SET "{column}" = @value WHERE {row.Where}""", content);

                var findings = (await shop.VerifyAsync()).Findings.Where(f => f.Problem != VerifyProblem.StandingDiffers);

                Assert.Equal((VerifyProblem.RowChanged, row.Name), Assert.Single(findings.Select(f => (f.Problem, f.Where))));
                await sql.ExecuteAsync($"""UPDATE {row.Table} SET "{column}" = @value WHERE {row.Where}""", before);
            }
        }

        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    private static async Task<List<RecordedRowAt>> FirstOfEachAsync(TestDatabase database) => [.. (await RecordedRows.AllAsync(database)).DistinctBy(r => r.Type)];
}
