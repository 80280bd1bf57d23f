using ShopFluids.Core.Database;

namespace ShopFluids.Core.Board;

/// <summary>Open rows by their sumps. Unchanging: the list of a sump of which nothing was changed stays the same one, so that whatever was made of it holds.</summary>
internal sealed class OpenRows<T>
    where T : Entity
{
    private readonly Func<T, Guid> _sumpOf;
    private readonly Dictionary<Guid, T> _byId;
    private readonly Dictionary<Guid, IReadOnlyList<T>> _bySump;

    public OpenRows(IReadOnlyCollection<T> open, Func<T, Guid> sumpOf)
        : this(sumpOf, open.ToDictionary(r => r.Id), open.GroupBy(sumpOf).ToDictionary(g => g.Key, IReadOnlyList<T> (g) => [.. g]), null)
    {
    }

    private OpenRows(Func<T, Guid> sumpOf, Dictionary<Guid, T> byId, Dictionary<Guid, IReadOnlyList<T>> bySump, IReadOnlySet<Guid>? touched) =>
        (_sumpOf, _byId, _bySump, Touched) = (sumpOf, byId, bySump, touched);

    public IReadOnlyCollection<T> All => _byId.Values;

    /// <summary>The sumps of rows that were changed since what was known before; null where that may be any.</summary>
    public IReadOnlySet<Guid>? Touched { get; }

    public IReadOnlyList<T> On(Guid sumpId) => _bySump.GetValueOrDefault(sumpId, []);

    /// <param name="changed">The ids of rows that may be others now.</param>
    /// <param name="now">These rows as they are now, open or not.</param>
    public OpenRows<T> With(IReadOnlyCollection<Guid> changed, IReadOnlyCollection<T> now, Func<T, bool> isOpen)
    {
        if (changed.Count == 0)
        {
            return Touched is { Count: 0 } ? this : new(_sumpOf, _byId, _bySump, new HashSet<Guid>());
        }

        var touched = changed.Select(id => _byId.GetValueOrDefault(id)).OfType<T>().Concat(now).Select(_sumpOf).ToHashSet();
        var byId = new Dictionary<Guid, T>(_byId);
        foreach (var id in changed)
        {
            byId.Remove(id);
        }

        foreach (var row in now.Where(isOpen))
        {
            byId.Add(row.Id, row);
        }

        var bySump = new Dictionary<Guid, IReadOnlyList<T>>(_bySump);
        foreach (var sumpId in touched)
        {
            bySump[sumpId] = [.. On(sumpId).Where(r => !changed.Contains(r.Id)), .. now.Where(r => _sumpOf(r) == sumpId && isOpen(r))];
        }

        return new(_sumpOf, byId, bySump, touched);
    }
}
