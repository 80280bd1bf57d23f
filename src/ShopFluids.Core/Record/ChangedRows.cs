using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Record;

/// <summary>
/// Which rows the acts of a stretch of the record changed. Each change of a recorded row stands there, so who keeps such rows in memory reads only these again.
/// </summary>
internal sealed class ChangedRows
{
    /// <summary>Any row may have changed.</summary>
    public static readonly ChangedRows Unknown = new(null);

    private static readonly Dictionary<string, HashSet<Guid>> Nothing = [];

    private readonly Dictionary<string, HashSet<Guid>>? _byEntity;

    private ChangedRows(Dictionary<string, HashSet<Guid>>? byEntity) => _byEntity = byEntity;

    /// <summary>Whether a row of this entity may have been added, changed or deleted.</summary>
    public bool Any<T>()
        where T : Entity =>
        _byEntity is null || _byEntity.ContainsKey(typeof(T).Name);

    /// <returns>The ids of an entity's rows that were changed; null where any may be.</returns>
    public IReadOnlyCollection<Guid>? Of<T>()
        where T : Entity =>
        _byEntity is null ? null : _byEntity.TryGetValue(typeof(T).Name, out var ids) ? ids : [];

    /// <param name="changes">What the entries of the record tell: <see cref="RecordEntry.Changes"/>.</param>
    internal static ChangedRows Of(IEnumerable<string> changes)
    {
        var byEntity = new Dictionary<string, HashSet<Guid>>(StringComparer.Ordinal);
        foreach (var text in changes)
        {
            using var rows = JsonDocument.Parse(text);
            foreach (var row in rows.RootElement.EnumerateArray())
            {
                var entity = row.GetProperty("entity").GetString() ?? "";
                if (!byEntity.TryGetValue(entity, out var ids))
                {
                    byEntity.Add(entity, ids = []);
                }

                // Every Entity has one; rows of several keys are asked for by nobody.
                if (row.GetProperty("key").TryGetGuid(out var id))
                {
                    ids.Add(id);
                }
            }
        }

        return byEntity.Count == 0 ? new(Nothing) : new(byEntity);
    }
}

/// <summary>Asks the record what was changed. A compiled query is of one model, hence no static.</summary>
internal sealed class ChangedRowsQuery
{
    // A longer stretch is a bulk change, or a night that nobody looked: to read everything is then as quick.
    private const int MostEntries = 50;

    private readonly Func<ShopFluidsDbContext, long, long, IAsyncEnumerable<string>> _changes =
        EF.CompileAsyncQuery((ShopFluidsDbContext db, long after, long to) => db.RecordEntries.Where(e => e.Sequence > after && e.Sequence <= to).Select(e => e.Changes));

    /// <param name="after">The last entry that is known.</param>
    /// <param name="to">The record's last entry. One before <paramref name="after"/> is of another database.</param>
    public async Task<ChangedRows> BetweenAsync(ShopFluidsDbContext db, long after, long to, CancellationToken cancellationToken) =>
        to < after || to - after > MostEntries ? ChangedRows.Unknown : ChangedRows.Of(to == after ? [] : await _changes(db, after, to).ToListAsync(cancellationToken));
}
