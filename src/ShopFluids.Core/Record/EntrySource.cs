using System.Data.Common;
using System.Runtime.CompilerServices;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Record;

/// <summary>All entries of the record, asked for by EF Core and read past it: it would make texts of what is only hashed, and that takes longer than the hashing.</summary>
internal static class EntrySource
{
    /// <summary>In their order, within the open transaction. Null stands for an entry that somebody changed so that it cannot be read.</summary>
    public static async IAsyncEnumerable<StoredEntry?> Of(ShopFluidsDbContext db, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        await using var command = db.RecordEntries.AsNoTracking().OrderBy(e => e.Sequence).CreateDbCommand();
        await using var row = await command.ExecuteReaderAsync(cancellationToken);
        var columns = new Columns(row);
        while (await row.ReadAsync(cancellationToken))
        {
            yield return Read(row, columns);
        }
    }

    private static StoredEntry? Read(DbDataReader row, Columns at)
    {
        try
        {
            return new(
                row.GetInt64(at.Sequence),
                row.GetDateTime(at.AtUtc),
                row.IsDBNull(at.ActorId) ? null : row.GetGuid(at.ActorId),
                row.GetString(at.ActorName),
                row.IsDBNull(at.StationId) ? null : row.GetGuid(at.StationId),
                row.IsDBNull(at.StationName) ? null : row.GetString(at.StationName),
                row.GetString(at.Code),
                row.GetString(at.Subject),
                row.IsDBNull(at.Changes) ? throw new InvalidDataException("An entry without changes.") : row.GetFieldValue<byte[]>(at.Changes),
                row.GetString(at.PreviousHash),
                row.GetString(at.Hash),
                row.IsDBNull(at.Seal) ? null : row.GetString(at.Seal));
        }
        catch (Exception unreadable) when (RowSource.IsUnreadable(unreadable))
        {
            return null;
        }
    }

    /// <summary>Where each column stands, asked once.</summary>
    private sealed class Columns(DbDataReader row)
    {
        public int Sequence { get; } = row.GetOrdinal(nameof(RecordEntry.Sequence));

        public int AtUtc { get; } = row.GetOrdinal(nameof(RecordEntry.AtUtc));

        public int ActorId { get; } = row.GetOrdinal(nameof(RecordEntry.ActorId));

        public int ActorName { get; } = row.GetOrdinal(nameof(RecordEntry.ActorName));

        public int StationId { get; } = row.GetOrdinal(nameof(RecordEntry.StationId));

        public int StationName { get; } = row.GetOrdinal(nameof(RecordEntry.StationName));

        public int Code { get; } = row.GetOrdinal(nameof(RecordEntry.Code));

        public int Subject { get; } = row.GetOrdinal(nameof(RecordEntry.Subject));

        public int Changes { get; } = row.GetOrdinal(nameof(RecordEntry.Changes));

        public int PreviousHash { get; } = row.GetOrdinal(nameof(RecordEntry.PreviousHash));

        public int Hash { get; } = row.GetOrdinal(nameof(RecordEntry.Hash));

        public int Seal { get; } = row.GetOrdinal(nameof(RecordEntry.Seal));
    }
}
