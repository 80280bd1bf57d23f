using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record.Trail;

namespace ShopFluids.Core.Record;

/// <summary>
/// Which rows the acts of a stretch of the record changed. Each change of a recorded row stands there, so who keeps such rows in memory reads only these again.
/// </summary>
public sealed class ChangedRows
{
    // To name so many would take longer than to read everything.
    private const int MostNamed = 200;

    /// <summary>Any row may have changed.</summary>
    public static readonly ChangedRows Unknown = new(null);

    private readonly Dictionary<string, HashSet<Guid>>? _byEntity;

    private ChangedRows(Dictionary<string, HashSet<Guid>>? byEntity) => _byEntity = byEntity;

    public bool IsUnknown => _byEntity is null;

    /// <summary>Whether a row of this entity may have been added, changed or deleted.</summary>
    public bool Any<T>()
        where T : Entity =>
        _byEntity is null || _byEntity.ContainsKey(typeof(T).Name);

    /// <returns>The ids of an entity's rows that were changed; null where that may be any, or too many to name.</returns>
    public IReadOnlyCollection<Guid>? Of<T>()
        where T : Entity =>
        _byEntity is null ? null
        : !_byEntity.TryGetValue(typeof(T).Name, out var ids) ? []
        : ids.Count > MostNamed ? null : ids;

    /// <param name="changes">What the entries of a stretch tell: <see cref="RecordEntry.Changes"/>. <see cref="Unknown"/> where one of them cannot be read.</param>
    public static ChangedRows Of(IEnumerable<string> changes)
    {
        var byEntity = new Dictionary<string, HashSet<Guid>>(StringComparer.Ordinal);
        try
        {
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
        }
        catch (Exception unreadable) when (RowChange.IsUnreadable(unreadable))
        {
            // Somebody wrote past the program. To prove that is the business of the proof of the record, not of who only wants to know what is new.
            return Unknown;
        }

        return new(byEntity);
    }
}

/// <summary>The last entry that somebody knows of a record.</summary>
public sealed record RecordPlace(long Sequence, string Hash)
{
    public static RecordPlace Of(RecordHead head) => new(head.Sequence, head.Hash);
}

/// <summary>Asks the record what was changed. A compiled query is of one model, hence no static.</summary>
public sealed class ChangedRowsQuery
{
    // A longer stretch is a night that nobody looked: to read everything is then as quick.
    private const int MostEntries = 50;

    private readonly Func<ShopFluidsDbContext, long, long, IAsyncEnumerable<Entry>> _entries = EF.CompileAsyncQuery(
        (ShopFluidsDbContext db, long after, long to) => db.RecordEntries.Where(e => e.Sequence > after && e.Sequence <= to).OrderBy(e => e.Sequence).Select(e => new Entry(e.PreviousHash, e.Changes)));

    /// <summary><see cref="ChangedRows.Unknown"/> where the stretch is long, or does not go on from what is known: another database, or one that was put back to an earlier state.</summary>
    public async Task<ChangedRows> BetweenAsync(ShopFluidsDbContext db, RecordPlace known, RecordPlace now, CancellationToken cancellationToken)
    {
        if (known == now)
        {
            return ChangedRows.Of([]);
        }

        if (now.Sequence <= known.Sequence || now.Sequence - known.Sequence > MostEntries)
        {
            return ChangedRows.Unknown;
        }

        var entries = await _entries(db, known.Sequence, now.Sequence).ToListAsync(cancellationToken);
        return entries.Count == now.Sequence - known.Sequence && entries[0].PreviousHash == known.Hash ? ChangedRows.Of(entries.Select(e => e.Changes)) : ChangedRows.Unknown;
    }

    private sealed record Entry(string PreviousHash, string Changes);
}
