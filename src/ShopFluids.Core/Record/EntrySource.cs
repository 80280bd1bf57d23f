using System.Data.Common;
using System.Runtime.CompilerServices;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Record;

/// <summary>All entries of the record, past EF Core: it would make two texts of what is only hashed, and that takes longer than the hashing.</summary>
internal static class EntrySource
{
    private const string Query = """
        SELECT "Sequence", "AtUtc", "ActorId", "ActorName", "StationId", "StationName", "Code", "Subject", "Changes", "PreviousHash", "Hash", "Seal"
        FROM "RecordEntries" ORDER BY "Sequence"
        """;

    /// <summary>In their order, within the open transaction. Null stands for an entry that somebody changed so that it cannot be read.</summary>
    public static async IAsyncEnumerable<StoredEntry?> Of(ShopFluidsDbContext db, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.Transaction = db.Database.CurrentTransaction?.GetDbTransaction();
        command.CommandText = Query;
        await using var row = await command.ExecuteReaderAsync(cancellationToken);
        while (await row.ReadAsync(cancellationToken))
        {
            yield return Read(row);
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
                row.IsDBNull(4) ? null : row.GetGuid(4),
                row.IsDBNull(5) ? null : row.GetString(5),
                row.GetString(6),
                row.GetString(7),
                row.IsDBNull(8) ? throw new InvalidDataException("An entry without changes.") : row.GetFieldValue<byte[]>(8),
                row.GetString(9),
                row.GetString(10),
                row.IsDBNull(11) ? null : row.GetString(11));
        }
        catch (Exception unreadable) when (RowSource.IsUnreadable(unreadable))
        {
            return null;
        }
    }
}
