using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Storage;
using ShopFluids.Core.Record;

namespace ShopFluids.Core.Database;

/// <summary>
/// One write: takes the writers' lock, lets the handler read and change, then stores the changes and their record entry in
/// one transaction. Disposed without a commit, nothing has happened.
/// </summary>
public sealed class ShopWrite : IAsyncDisposable
{
    private readonly IDbContextTransaction _transaction;
    private readonly RecordHead _head;

    private ShopWrite(ShopFluidsDbContext database, IDbContextTransaction transaction, RecordHead head)
    {
        Database = database;
        _transaction = transaction;
        _head = head;
    }

    public ShopFluidsDbContext Database { get; }

    public long SetupVersion => _head.SetupVersion;

    internal static async Task<ShopWrite> BeginAsync(ShopFluidsDbContext database, IDatabaseProvider provider, CancellationToken cancellationToken)
    {
        try
        {
            // All or nothing is the transaction's; a savepoint for each save would only cost a round trip.
            database.Database.AutoSavepointsEnabled = false;
            var transaction = await database.Database.BeginTransactionAsync(cancellationToken);
            var head = await provider.LockHeadAsync(database, cancellationToken);
            return new ShopWrite(database, transaction, head);
        }
        catch
        {
            await database.DisposeAsync();
            throw;
        }
    }

    /// <summary>Stores what was changed and the act that changed it.</summary>
    public async Task CommitAsync(Act act, CancellationToken cancellationToken)
    {
        Database.ChangeTracker.DetectChanges();
        Database.RaiseVersions();
        var changed = Database.ChangeTracker.Entries<IRecorded>()
            .Where(e => e.State is EntityState.Added or EntityState.Modified or EntityState.Deleted)
            .ToList();
        if (changed.Count > 0)
        {
            Database.Add(_head.Append(act, Describe(changed), changed.Any(e => e.Entity is ISetup)));
        }

        Database.IsActing = true;
        try
        {
            await Database.SaveChangesAsync(cancellationToken);
            await _transaction.CommitAsync(cancellationToken);
        }
        finally
        {
            Database.IsActing = false;
        }
    }

    public async ValueTask DisposeAsync()
    {
        await _transaction.DisposeAsync();
        await Database.DisposeAsync();
    }

    private static string Describe(IEnumerable<EntityEntry<IRecorded>> changed)
    {
        using var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer))
        {
            json.WriteStartArray();
            foreach (var entry in changed.OrderBy(e => e.Metadata.ShortName(), StringComparer.Ordinal).ThenBy(e => RowImage.KeyOf(e), StringComparer.Ordinal))
            {
                json.WriteStartObject();
                json.WriteString("entity", entry.Metadata.ShortName());
                json.WriteString("key", RowImage.KeyOf(entry));
                if (entry.State != EntityState.Added)
                {
                    json.WritePropertyName("before");
                    RowImage.Write(json, entry, entry.OriginalValues, p => entry.State == EntityState.Deleted || entry.Property(p.Name).IsModified);
                }

                if (entry.State != EntityState.Deleted)
                {
                    json.WritePropertyName("after");
                    RowImage.Write(json, entry, entry.CurrentValues);
                }

                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        return Encoding.UTF8.GetString(buffer.ToArray());
    }
}

/// <summary>Opens reads and writes; one context for each operation.</summary>
public sealed class ShopDatabase(IDbContextFactory<ShopFluidsDbContext> contexts, IDatabaseProvider provider)
{
    public Task<ShopFluidsDbContext> ReadAsync(CancellationToken cancellationToken) => contexts.CreateDbContextAsync(cancellationToken);

    public async Task<ShopWrite> WriteAsync(CancellationToken cancellationToken) =>
        await ShopWrite.BeginAsync(await contexts.CreateDbContextAsync(cancellationToken), provider, cancellationToken);
}
