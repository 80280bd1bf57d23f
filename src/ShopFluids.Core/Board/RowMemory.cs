using System.Runtime.InteropServices;

namespace ShopFluids.Core.Board;

/// <summary>A row and which of its versions it is.</summary>
[StructLayout(LayoutKind.Auto)]
internal readonly record struct RowVersion(Guid Id, long Version);

/// <summary>
/// Rows as they were read last. When somebody looks again most are as they were: all that is read of those is their version, and whole only what was changed.
/// </summary>
/// <param name="versionOf">Which row this is, and which version of it.</param>
internal sealed class RowMemory<T>(Func<T, RowVersion> versionOf)
    where T : class
{
    private volatile Dictionary<Guid, T> _known = [];

    /// <param name="wanted">The rows that are wanted now, and their versions.</param>
    /// <param name="rows">Reads those of these ids; for null, all that are wanted.</param>
    public async Task<IReadOnlyDictionary<Guid, T>> OfAsync(IAsyncEnumerable<RowVersion> wanted, Func<IReadOnlyCollection<Guid>?, IAsyncEnumerable<T>> rows, CancellationToken cancellationToken)
    {
        var (known, next, changed) = (_known, new Dictionary<Guid, T>(_known.Count), new HashSet<Guid>());
        await foreach (var row in wanted.WithCancellation(cancellationToken))
        {
            if (known.TryGetValue(row.Id, out var last) && versionOf(last) == row)
            {
                next.Add(row.Id, last);
            }
            else
            {
                changed.Add(row.Id);
            }
        }

        if (changed.Count > 0)
        {
            // At first all are wanted: to name each would take longer than to read them.
            await foreach (var row in rows(next.Count == 0 ? null : changed).WithCancellation(cancellationToken))
            {
                next[versionOf(row).Id] = row;
            }
        }

        _known = next;
        return next;
    }
}
