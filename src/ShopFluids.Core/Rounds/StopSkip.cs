using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Rounds;

/// <summary>Why a sump was passed by on this day's round, when, and by whom.</summary>
/// <param name="By">Empty for a program.</param>
public sealed record StopSkip(SkipReason Reason, string Words, DateTime AtUtc, string By)
{
    /// <summary>Whether it still holds: a reading after it answers it.</summary>
    public bool HoldsAfter(DateTime? lastReadAtUtc) => !(lastReadAtUtc >= AtUtc);

    /// <summary>The last said of each sump on a shop day.</summary>
    internal static async Task<Dictionary<Guid, StopSkip>> OfDayAsync(ShopFluidsDbContext db, DateOnly day, CancellationToken cancellationToken)
    {
        var said = await SaidOnAsync(db, day, cancellationToken);
        var by = said.Select(s => s.PersonId).OfType<Guid>().Distinct().ToList();
        var names = by.Count == 0 ? [] : await db.Users.AsNoTracking().Where(p => by.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.DisplayName, cancellationToken);
        return LastOfEach(said, names);
    }

    /// <summary>Everything said on a shop day, in the order in which it was.</summary>
    internal static async Task<IReadOnlyList<SkippedStop>> SaidOnAsync(ShopFluidsDbContext db, DateOnly day, CancellationToken cancellationToken) =>
        await db.SkippedStops.AsNoTracking().Where(s => s.Day == day).OrderBy(s => s.SkippedAtUtc).ThenBy(s => s.Id).ToListAsync(cancellationToken);

    /// <param name="names">Of people, by their ids.</param>
    internal static Dictionary<Guid, StopSkip> LastOfEach(IEnumerable<SkippedStop> said, IReadOnlyDictionary<Guid, string> names) =>
        said.GroupBy(s => s.SumpId).Select(g => g.Last())
            .ToDictionary(s => s.SumpId, s => new StopSkip(s.Reason, s.Words, s.SkippedAtUtc, s.PersonId is { } by ? names.GetValueOrDefault(by, "") : ""));
}
