using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Flags;

/// <summary>
/// When somebody last did something about a sump: read it, moved fluid, did, skipped or re-dated work, or was given work that is still open. Work
/// that only went with what asked for it, such as a shutdown, is no answer. The replay goes by the same rule, in PastShop.
/// </summary>
internal sealed class FlagAnswers
{
    private readonly HashSet<Guid> _given;
    private readonly Dictionary<Guid, DateTime?> _lasts;

    private FlagAnswers(HashSet<Guid> given, Dictionary<Guid, DateTime?> lasts) => (_given, _lasts) = (given, lasts);

    /// <summary>On the sumps of some flags.</summary>
    public static async Task<FlagAnswers> OfAsync(ShopFluidsDbContext db, IEnumerable<Flag> flags, CancellationToken cancellationToken)
    {
        var sumpIds = flags.Select(f => f.SumpId).Distinct().ToList();
        if (sumpIds.Count == 0)
        {
            return new([], []);
        }

        var given = await db.CareTasks.AsNoTracking().Where(t => sumpIds.Contains(t.SumpId) && t.State == TaskState.Open && t.AssignedToId != null)
            .Select(t => t.SumpId).Distinct().ToListAsync(cancellationToken);
        var standings = await db.Standings.AsNoTracking().Where(s => sumpIds.Contains(s.SumpId)).ToListAsync(cancellationToken);
        return Of(given, standings, await EndedAsync(db, sumpIds, cancellationToken));
    }

    /// <param name="given">Sumps of which open work was given to somebody.</param>
    /// <param name="ended">As <see cref="EndedAsync"/> answers.</param>
    public static FlagAnswers Of(IEnumerable<Guid> given, IReadOnlyCollection<Standing> standings, IReadOnlyDictionary<Guid, DateTime?> ended) => new(
        [.. given],
        standings.Select(s => (s.SumpId, At: s.LastReadAtUtc))
            .Concat(standings.Select(s => (s.SumpId, At: s.Facts?.LastMovedAt)))
            .Concat(ended.Select(e => (SumpId: e.Key, At: e.Value)))
            .Where(a => a.At is not null)
            .GroupBy(a => a.SumpId)
            .ToDictionary(g => g.Key, g => g.Max(a => a.At)));

    /// <summary>When somebody last ended work of each of these sumps.</summary>
    public static async Task<Dictionary<Guid, DateTime?>> EndedAsync(ShopFluidsDbContext db, IReadOnlyCollection<Guid> sumpIds, CancellationToken cancellationToken) =>
        sumpIds.Count == 0 ? [] : await db.CareTasks.AsNoTracking().Where(t => sumpIds.Contains(t.SumpId) && t.EndedByPersonId != null && (t.State != TaskState.Withdrawn || t.EndReason != null))
            .GroupBy(t => t.SumpId).Select(g => new { SumpId = g.Key, At = g.Max(t => t.EndedAtUtc) })
            .ToDictionaryAsync(g => g.SumpId, g => g.At, cancellationToken);

    /// <summary>Null for never. Work given to somebody answers for as long as it is open; for when it was given no column is kept, and none is needed.</summary>
    public DateTime? LastOn(Guid sumpId) => _given.Contains(sumpId) ? DateTime.MaxValue.ToUniversalTime() : _lasts.GetValueOrDefault(sumpId);
}
