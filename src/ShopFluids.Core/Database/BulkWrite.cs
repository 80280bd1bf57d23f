using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Storage;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Sealing;

namespace ShopFluids.Core.Database;

/// <summary>What may become of a row that is made within a <see cref="BulkWrite"/>.</summary>
internal enum RowFate
{
    /// <summary>It is never changed again.</summary>
    Final,

    /// <summary>It may be changed, and other rows name it: it is stored, and changed where it is.</summary>
    Changes,

    /// <summary>It may be changed, and no row names it: it is stored once it is final, or at the end.</summary>
    Waits,
}

/// <summary>
/// Many acts in one transaction after another, for filling an empty database: each act has its own entry in the record, just as from a
/// <see cref="ShopWrite"/>, but the rows go to the engine by thousands. Between two commits the database knows less than the record says, so a
/// filling that is broken off is worth nothing, and a server must not look at the shop before it is done: it would take the record at its word.
/// </summary>
internal sealed class BulkWrite(ShopFluidsDbContext database, IDatabaseProvider provider, RecordSealer sealer, Func<object, RowFate> fateOf) : IAsyncDisposable
{
    private readonly HashSet<object> _waiting = new(ReferenceEqualityComparer.Instance);

    // Of changed rows that are stored already: the version that the database holds.
    private readonly Dictionary<object, long> _versions = new(ReferenceEqualityComparer.Instance);
    private readonly List<object> _entries = [];
    private IDbContextTransaction? _transaction;
    private RecordHead? _head;

    /// <summary>How many acts are not committed yet.</summary>
    public int Pending => _entries.Count;

    public async Task BeginAsync(CancellationToken cancellationToken)
    {
        database.ChangeTracker.AutoDetectChangesEnabled = false;
        database.Database.AutoSavepointsEnabled = false;
        _transaction = await database.Database.BeginTransactionAsync(cancellationToken);
        _head = await provider.LockHeadAsync(database, cancellationToken);
    }

    /// <summary>A row that others stored and that acts to come will change.</summary>
    public Task<T> FindAsync<T>(Guid id, CancellationToken cancellationToken)
        where T : Entity => database.Set<T>().SingleAsync(e => e.Id == id, cancellationToken);

    /// <summary>Writes an act into the record.</summary>
    /// <param name="added">The rows that it makes; what hangs on them must be named, too.</param>
    /// <param name="changed">Rows of earlier acts that it has changed.</param>
    /// <exception cref="InvalidOperationException">No transaction is open, or a changed row was said to be final.</exception>
    public void Record(Act act, IEnumerable<object> added, IEnumerable<object> changed)
    {
        var head = _head ?? throw new InvalidOperationException("No transaction is open.");
        var entries = new List<EntityEntry>();
        foreach (var row in added)
        {
            entries.Add(Add(row));
        }

        foreach (var row in changed)
        {
            if (Detect(row) is { State: EntityState.Modified } entry)
            {
                entries.Add(entry);
            }
        }

        var recorded = entries.FindAll(e => e.Entity is IRecorded);
        recorded.ForEach(Settle);
        _entries.Add(head.Append(act, $"[{string.Join(',', RowChanges.Of(recorded))}]", recorded.Exists(e => e.Entity is ISetup), sealer.Key));
        database.ChangeTracker.AcceptAllChanges();
    }

    /// <summary>Adds rows that stand in no record.</summary>
    public void AddUnrecorded(IEnumerable<object> rows)
    {
        foreach (var row in rows)
        {
            Settle(Add(row));
        }

        database.ChangeTracker.AcceptAllChanges();
    }

    /// <param name="isLast">Nothing is changed any more: what waits is stored, too.</param>
    public async Task CommitAsync(bool isLast, CancellationToken cancellationToken)
    {
        if (_transaction is not { } transaction || _head is not { } head)
        {
            throw new InvalidOperationException("No transaction is open.");
        }

        // First the changes: a drained charge makes way for the next one.
        await UpdateAsync(head, cancellationToken);
        await InsertAsync(_waiting.Where(r => isLast || fateOf(r) != RowFate.Waits).ToList(), cancellationToken);
        await InsertRowsAsync(TypeOf(typeof(RecordEntry)), _entries, cancellationToken);
        _entries.Clear();
        await transaction.CommitAsync(cancellationToken);
        await transaction.DisposeAsync();

        // Others may write now: it is read anew at the next beginning.
        database.Entry(head).State = EntityState.Detached;
        (_transaction, _head) = (null, null);
    }

    public async ValueTask DisposeAsync()
    {
        if (_transaction is not null)
        {
            await _transaction.DisposeAsync();
        }

        await database.DisposeAsync();
    }

    private EntityEntry Add(object row)
    {
        var entry = database.Entry(row);
        entry.State = EntityState.Added;
        _waiting.Add(row);
        return entry;
    }

    private EntityEntry Detect(object row)
    {
        var entry = database.Entry(row);
        if (entry.State == EntityState.Detached)
        {
            throw new InvalidOperationException($"{entry.Metadata.ShortName()} was final and is changed.");
        }

        entry.DetectChanges();
        if (!_waiting.Contains(row) && row is IVersioned versioned)
        {
            _versions.TryAdd(row, versioned.Version);
        }

        return entry;
    }

    private void Settle(EntityEntry entry)
    {
        StoredForm.Apply(entry);
        if (entry.Entity is IVersioned versioned)
        {
            ShopFluidsDbContext.RaiseVersion(database.Entry(versioned));
        }
    }

    private async Task InsertAsync(List<object> rows, CancellationToken cancellationToken)
    {
        foreach (var ofType in rows.GroupBy(r => r.GetType()).Select(g => (Type: TypeOf(g.Key), Rows: g.ToList())).OrderBy(g => DepthOf(g.Type)))
        {
            await InsertRowsAsync(ofType.Type, ofType.Rows, cancellationToken);
        }

        foreach (var row in rows)
        {
            _waiting.Remove(row);
        }

        LetGo(rows);
    }

    private void LetGo(IEnumerable<object> rows)
    {
        foreach (var row in rows.Where(r => fateOf(r) == RowFate.Final))
        {
            database.Entry(row).State = EntityState.Detached;
        }
    }

    private async Task UpdateAsync(RecordHead head, CancellationToken cancellationToken)
    {
        foreach (var (row, version) in _versions)
        {
            var entry = database.Entry(row);
            entry.State = EntityState.Modified;
            entry.Property(nameof(IVersioned.Version)).OriginalValue = version;
        }

        database.Entry(head).State = EntityState.Modified;
        database.IsActing = true;
        try
        {
            await database.SaveChangesAsync(cancellationToken);
        }
        finally
        {
            database.IsActing = false;
        }

        LetGo(_versions.Keys);
        _versions.Clear();
    }

    private Task InsertRowsAsync(IEntityType type, IReadOnlyList<object> rows, CancellationToken cancellationToken) =>
        provider.InsertAsync(database, new BulkRows(type, rows), cancellationToken);

    private IEntityType TypeOf(Type type) => database.Model.FindEntityType(type) ?? throw new InvalidOperationException($"{type.Name} is not in the model.");

    // A row is stored after those that it names.
    private static int DepthOf(IEntityType type) =>
        type.GetForeignKeys().Where(k => k.PrincipalEntityType != type).Select(k => 1 + DepthOf(k.PrincipalEntityType)).DefaultIfEmpty(0).Max();
}
