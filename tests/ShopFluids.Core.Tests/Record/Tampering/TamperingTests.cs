using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Record.Tampering;

/// <summary>Five hundred times somebody who owns the database, but not the key, changes the past: every time it is seen, and the first place named.</summary>
public sealed class TamperingTests
{
    private const int Edits = 500;
    private const int PrintedDigits = 16;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task RunAsync_TamperedWithoutTheKey_NamesTheFirstPlace(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        await using var sql = await RawSql.OpenAsync(database);
        var record = (await sql.Context.RecordEntries.AsNoTracking().OrderBy(e => e.Sequence).ToListAsync(Stop)).ConvertAll(ForgedEntry.Of);
        var rows = await RecordedRows.AllAsync(database);
        var printed = new RecordFingerprint(record.Count, record[^1].Hash[..PrintedDigits]);
        var unseen = new List<string>();
        for (var seed = 0; seed < Edits; seed++)
        {
            // Never committed: the next forger finds the shop as it was.
            await using var undone = await sql.Context.Database.BeginTransactionAsync(Stop);
            var done = await new Forger(sql, database.Engine, record, rows, seed).TamperAsync();
            var findings = (await shop.Get<VerifyQuery>().RunAsync(sql.Context, done.NeedsFingerprint ? [printed] : [], Stop)).Findings;
            if (findings.Count == 0 || findings[0].Where != done.FirstBad || (done.NeedsKey && findings.Any(f => f.Problem is not (VerifyProblem.NotSealed or VerifyProblem.StandingDiffers))))
            {
                unseen.Add($"seed {seed}, {done}: {string.Join("; ", findings.Take(3))}");
            }

            sql.Context.ChangeTracker.Clear();
        }

        Assert.True(unseen.Count == 0, $"{unseen.Count} of {Edits} were not named rightly:{Environment.NewLine}{string.Join(Environment.NewLine, unseen)}");
        Assert.Empty((await shop.VerifyAsync(printed)).Findings);
    }
}
