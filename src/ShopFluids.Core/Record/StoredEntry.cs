using System.Data.Common;
using System.Runtime.CompilerServices;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Record;

/// <summary>An entry of the record as it lies in the database. Its changes stay the bytes that they are there: they are only hashed and looked through.</summary>
internal sealed record StoredEntry(
    long Sequence, DateTime AtUtc, Guid? ActorId, string ActorName, string Code, string Subject, byte[] Changes, string PreviousHash, string Hash, Guid? StationId, string? StationName, string? Seal)
{
    // In the order in which Read takes them.
    private static readonly string[] Columns =
    [
        nameof(RecordEntry.Sequence), nameof(RecordEntry.AtUtc), nameof(RecordEntry.ActorId), nameof(RecordEntry.ActorName), nameof(RecordEntry.Code), nameof(RecordEntry.Subject),
        nameof(RecordEntry.Changes), nameof(RecordEntry.PreviousHash), nameof(RecordEntry.Hash), nameof(RecordEntry.StationId), nameof(RecordEntry.StationName), nameof(RecordEntry.Seal),
    ];

    /// <summary>All of them, from the first to the last. Null stands for one that somebody changed so that it cannot be read.</summary>
    public static async IAsyncEnumerable<StoredEntry?> AllAsync(ShopFluidsDbContext db, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        await db.Database.OpenConnectionAsync(cancellationToken);
        try
        {
            await using var command = db.Database.GetDbConnection().CreateCommand();
            command.Transaction = db.Database.CurrentTransaction?.GetDbTransaction();
            command.CommandText = $"""SELECT {string.Join(", ", Columns.Select(c => $"\"{c}\""))} FROM "RecordEntries" ORDER BY "Sequence" """;
            await using var rows = await command.ExecuteReaderAsync(cancellationToken);
            while (await rows.ReadAsync(cancellationToken))
            {
                yield return Read(rows);
            }
        }
        finally
        {
            await db.Database.CloseConnectionAsync();
        }
    }

    private static StoredEntry? Read(DbDataReader row)
    {
        try
        {
            return new(
                row.GetInt64(0),
                row.GetDateTime(1),
                row.IsDBNull(2) ? null : row.GetGuid(2),
                row.GetString(3),
                row.GetString(4),
                row.GetString(5),
                row.GetFieldValue<byte[]>(6),
                row.GetString(7),
                row.GetString(8),
                row.IsDBNull(9) ? null : row.GetGuid(9),
                row.IsDBNull(10) ? null : row.GetString(10),
                row.IsDBNull(11) ? null : row.GetString(11));
        }
        catch (Exception exception) when (RowSource.IsUnreadable(exception))
        {
            return null;
        }
    }
}
