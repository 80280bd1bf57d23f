using System.Data;
using Microsoft.EntityFrameworkCore;

namespace ShopFluids.Core.Database;

/// <summary>What differs between the engines, and nothing else.</summary>
public interface IDatabaseProvider
{
    /// <summary>The name in settings: sqlite or postgres.</summary>
    string Name { get; }

    /// <summary>Points the options at a database.</summary>
    void Configure(DbContextOptionsBuilder options, string connectionString);

    /// <summary>
    /// The same engine for filling a fresh database that can be filled again: a commit does not wait for the disk, so a power
    /// cut may lose it. Not for anything that a person was told is saved.
    /// </summary>
    IDatabaseProvider ForFilling();

    /// <summary>
    /// Takes the writers' lock inside the open transaction and reads the head of the record, tracked. Every write does this
    /// first: one writer at a time, on one instance or many.
    /// </summary>
    Task<Record.RecordHead> LockHeadAsync(ShopFluidsDbContext database, CancellationToken cancellationToken);

    /// <summary>Called before EF Core asks a database for its migrations: there is a table to ask afterwards, where EF Core needs one.</summary>
    Task PrepareHistoryAsync(ShopFluidsDbContext database, CancellationToken cancellationToken);

    /// <summary>The isolation under which a long read sees one moment and keeps no writer waiting.</summary>
    IsolationLevel OneMoment { get; }

    /// <summary>Stores new rows of one table inside the open transaction in the engine's quickest way, past the change tracker. No row is asked for what it sets off.</summary>
    Task InsertAsync(ShopFluidsDbContext database, BulkRows rows, CancellationToken cancellationToken);

    /// <summary>Copies a running database into a file, where the engine can; a clear error where its own tools must be used.</summary>
    Task BackupAsync(ShopFluidsDbContext database, string file, CancellationToken cancellationToken);
}
