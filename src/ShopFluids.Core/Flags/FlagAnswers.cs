using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;

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
        var ended = await db.CareTasks.AsNoTracking().Where(t => sumpIds.Contains(t.SumpId) && t.EndedByPersonId != null && (t.State != TaskState.Withdrawn || t.EndReason != null))
            .GroupBy(t => t.SumpId).Select(g => new { SumpId = g.Key, At = g.Max(t => t.EndedAtUtc) }).ToListAsync(cancellationToken);
        var standings = await db.Standings.AsNoTracking().Where(s => sumpIds.Contains(s.SumpId)).ToListAsync(cancellationToken);
        var lasts = standings.Select(s => (s.SumpId, At: s.LastReadAtUtc))
            .Concat(standings.Select(s => (s.SumpId, At: s.Facts?.LastMovedAt)))
            .Concat(ended.Select(e => (e.SumpId, e.At)))
            .Where(a => a.At is not null)
            .GroupBy(a => a.SumpId)
            .ToDictionary(g => g.Key, g => g.Max(a => a.At));
        return new([.. given], lasts);
    }

    /// <summary>Null for never. Work given to somebody answers for as long as it is open; for when it was given no column is kept, and none is needed.</summary>
    public DateTime? LastOn(Guid sumpId) => _given.Contains(sumpId) ? DateTime.MaxValue.ToUniversalTime() : _lasts.GetValueOrDefault(sumpId);
}
