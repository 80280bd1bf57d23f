using System.Buffers;
using System.Diagnostics;
using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Sealing;

namespace ShopFluids.Benchmarks;

/// <summary>
/// A proof of a record of 100,000 sealed entries, each with the image of a row of about the size of a reading, beside hashing the same bytes and
/// nothing else. Every second entry takes the row of the one before away again, so that there are no rows to prove but the entries.
/// </summary>
internal sealed class VerifyRecord(IDatabaseProvider provider, string connectionString)
{
    private const int Entries = 100_000;

    // The first proofs run in code that is still being compiled; of a million entries that is a small part.
    private const int WarmUps = 4;
    private const int Runs = 5;
    private const int ImageColumns = 40;

    private static readonly DateTime Start = new(2026, 1, 5, 8, 0, 0, DateTimeKind.Utc);

    /// <returns>Milliseconds of the proof and of hashing alone, each the best of several.</returns>
    public async Task<(double Ours, double Floor)> RunAsync()
    {
        var key = RecordKey.Make(RecordFingerprint.OfNothing);
        var services = new ServiceCollection().AddLogging().AddSingleton<TimeProvider>(new WallClock()).AddSingleton(provider).AddSingleton(new RecordSealer(key)).AddShopFluidsCore();
        services.AddDbContextFactory<ShopFluidsDbContext>(options => provider.Configure(options, connectionString));
        await using var program = services.BuildServiceProvider();
        await using var db = await program.GetRequiredService<IDbContextFactory<ShopFluidsDbContext>>().CreateDbContextAsync();
        await db.Database.MigrateAsync();
        var hashed = await FillAsync(db, key);
        var (ours, floor) = (double.MaxValue, double.MaxValue);
        for (var run = 0; run < WarmUps + Runs; run++)
        {
            floor = Math.Min(floor, Milliseconds(hashed));
            var started = Stopwatch.GetTimestamp();
            var report = await program.GetRequiredService<VerifyQuery>().RunAsync([], default);
            ours = run < WarmUps ? ours : Math.Min(ours, Stopwatch.GetElapsedTime(started).TotalMilliseconds);
            if (report.Findings.Count > 0 || report.Entries != Entries)
            {
                throw new InvalidOperationException($"The record of {report.Entries} entries is not sound: {(report.Findings is [var first, ..] ? first : null)}");
            }
        }

        return (ours, floor);
    }

    private static double Milliseconds(List<byte[]> hashed)
    {
        var started = Stopwatch.GetTimestamp();
        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        foreach (var bytes in hashed)
        {
            SHA256.HashData(bytes, hash);
        }

        return Stopwatch.GetElapsedTime(started).TotalMilliseconds;
    }

    /// <returns>What the hashes are taken of.</returns>
    private static async Task<List<byte[]>> FillAsync(ShopFluidsDbContext db, RecordKey key)
    {
        var (hashed, bytes) = (new List<byte[]>(Entries), new ArrayBufferWriter<byte>());
        var image = "{" + string.Join(',', Enumerable.Range(0, ImageColumns).Select(n => $"\"Column{n:00}\":\"The value of column {n:00}\"")) + "}";
        var previous = RecordEntry.FirstPreviousHash;
        var connection = db.Database.GetDbConnection();
        await db.Database.OpenConnectionAsync();
        await using var transaction = await connection.BeginTransactionAsync();
        await using var insert = connection.CreateCommand();
        insert.Transaction = transaction;
        insert.CommandText = """
            INSERT INTO "RecordEntries" ("Sequence", "AtUtc", "ActorName", "Code", "Subject", "Changes", "PreviousHash", "Hash", "Seal") VALUES (@p0, @p1, @p2, @p3, @p4, @p5, @p6, @p7, @p8)
            """;
        for (var n = 0; n < 9; n++)
        {
            var parameter = insert.CreateParameter();
            parameter.ParameterName = $"p{n}";
            insert.Parameters.Add(parameter);
        }

        for (var sequence = 1L; sequence <= Entries; sequence++)
        {
            var changes = $$"""[{"entity":"Reading","key":"{{new Guid((int)(sequence + 1) / 2, 0, 0, new byte[8]):D}}","{{(sequence % 2 == 1 ? "after" : "before")}}":{{image}}}]""";
            var entry = new RecordEntry(sequence, new Act(ActCodes.ReadingStored, Actor.Program, Start.AddSeconds(sequence), BenchShop.Sump), changes, previous);
            foreach (var (n, value) in new object[] { sequence, entry.AtUtc, entry.ActorName, entry.Code, entry.Subject, changes, previous, entry.Hash, key.Seal(entry.Hash) }.Index())
            {
                insert.Parameters[n].Value = value;
            }

            await insert.ExecuteNonQueryAsync();
            bytes.ResetWrittenCount();
            entry.WriteHashed(bytes);
            hashed.Add(bytes.WrittenSpan.ToArray());
            previous = entry.Hash;
        }

        insert.CommandText = """UPDATE "RecordHead" SET "Sequence" = @p0, "Hash" = @p7""";
        await insert.ExecuteNonQueryAsync();
        await transaction.CommitAsync();
        return hashed;
    }
}
