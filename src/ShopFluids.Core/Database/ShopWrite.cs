using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Storage;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Sealing;

namespace ShopFluids.Core.Database;

/// <summary>
/// One write: takes the writers' lock, lets the handler read and change, then stores the changes and their record entry in
/// one transaction. Disposed without a commit, nothing has happened.
/// </summary>
public sealed class ShopWrite : IAsyncDisposable
{
    private readonly IDbContextTransaction _transaction;
    private readonly RecordHead _head;
    private readonly RecordSealer _sealer;
    private readonly List<string> _changes = [];
    private bool _changesSetup;

    private ShopWrite(ShopFluidsDbContext database, IDbContextTransaction transaction, RecordHead head, RecordSealer sealer)
    {
        Database = database;
        _transaction = transaction;
        _head = head;
        _sealer = sealer;
    }

    public ShopFluidsDbContext Database { get; }

    public long SetupVersion => _head.SetupVersion;

    internal static async Task<ShopWrite> BeginAsync(ShopFluidsDbContext database, IDatabaseProvider provider, RecordSealer sealer, CancellationToken cancellationToken)
    {
        try
        {
            // All or nothing is the transaction's; a savepoint for each save would only cost a round trip.
            database.Database.AutoSavepointsEnabled = false;
            var transaction = await database.Database.BeginTransactionAsync(cancellationToken);
            var head = await provider.LockHeadAsync(database, cancellationToken);
            return new ShopWrite(database, transaction, head, sealer);
        }
        catch
        {
            await database.DisposeAsync();
            throw;
        }
    }

    /// <summary>Sends the changes so far to the database, so that a query of the same write sees them; they stay uncommitted.</summary>
    public async Task FlushAsync(CancellationToken cancellationToken)
    {
        Collect();
        await SaveAsync(cancellationToken);
    }

    /// <summary>
    /// Writes the act behind the changes so far into the record and goes on with the next one: several acts that stand or fall together.
    /// Nothing is committed. The set-up must not be loaded anew meanwhile: a snapshot of what is never committed would outlive it.
    /// </summary>
    public async Task RecordAsync(Act act, CancellationToken cancellationToken)
    {
        Collect();
        Append(act);
        await SaveAsync(cancellationToken);
    }

    /// <summary>
    /// Writes that the act happened, without a row: an account's row holds secrets, which have no place in the record. Not
    /// for a write that also changes recorded entities; its commit writes the entry itself.
    /// </summary>
    public void Note(Act act) => Database.Add(_head.Append(act, "[]", changesSetup: false, _sealer.Key));

    /// <summary>Stores what was changed and the act that changed it.</summary>
    public async Task CommitAsync(Act act, CancellationToken cancellationToken)
    {
        await RecordAsync(act, cancellationToken);
        await _transaction.CommitAsync(cancellationToken);
    }

    /// <summary>Stores changes of rows that stand in no record: counts, sessions, what a device tells of itself.</summary>
    /// <exception cref="InvalidOperationException">A recorded row was changed: that takes an act.</exception>
    public async Task CommitUnrecordedAsync(CancellationToken cancellationToken)
    {
        Collect();
        if (_changes.Count > 0)
        {
            throw new InvalidOperationException("A recorded row was changed without an act.");
        }

        await SaveAsync(cancellationToken);
        await _transaction.CommitAsync(cancellationToken);
    }

    public async ValueTask DisposeAsync()
    {
        await _transaction.DisposeAsync();
        await Database.DisposeAsync();
    }

    private void Append(Act act)
    {
        if (_changes.Count == 0)
        {
            return;
        }

        Database.Add(_head.Append(act, $"[{string.Join(',', _changes)}]", _changesSetup, _sealer.Key));
        Database.Entry(_head).DetectChanges();
        _changes.Clear();
        _changesSetup = false;
    }

    private async Task SaveAsync(CancellationToken cancellationToken)
    {
        Database.IsActing = true;
        try
        {
            await Database.SaveChangesAsync(cancellationToken);
        }
        finally
        {
            Database.IsActing = false;
            Database.ChangeTracker.AutoDetectChangesEnabled = true;
        }
    }

    // Changes are looked for once, by Collect; every later step says itself what it changes.
    private void Collect()
    {
        Database.ChangeTracker.DetectChanges();
        Database.ChangeTracker.AutoDetectChangesEnabled = false;
        foreach (var entry in Database.ChangeTracker.Entries().Where(e => e.State is EntityState.Added or EntityState.Modified).ToList())
        {
            StoredForm.Apply(entry);
        }

        Database.RaiseVersions();
        var changed = Database.ChangeTracker.Entries<IRecorded>().Where(e => e.State is EntityState.Added or EntityState.Modified or EntityState.Deleted).ToList<EntityEntry>();
        _changesSetup |= changed.Exists(e => e.Entity is ISetup);
        _changes.AddRange(RowChanges.Of(changed));
    }
}

/// <summary>Opens reads and writes; one context for each operation.</summary>
public sealed class ShopDatabase(IDbContextFactory<ShopFluidsDbContext> contexts, IDatabaseProvider provider, RecordSealer sealer)
{
    public Task<ShopFluidsDbContext> ReadAsync(CancellationToken cancellationToken) => contexts.CreateDbContextAsync(cancellationToken);

    public async Task<ShopWrite> WriteAsync(CancellationToken cancellationToken) =>
        await ShopWrite.BeginAsync(await contexts.CreateDbContextAsync(cancellationToken), provider, sealer, cancellationToken);
}
