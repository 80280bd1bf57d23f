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
        var skips = await db.SkippedStops.AsNoTracking().Where(s => s.Day == day)
            .OrderBy(s => s.SkippedAtUtc).ThenBy(s => s.Id)
            .Select(s => new { s.SumpId, s.Reason, s.Words, s.SkippedAtUtc, By = db.Users.Where(p => p.Id == s.PersonId).Select(p => p.DisplayName).FirstOrDefault() })
            .ToListAsync(cancellationToken);
        return skips.GroupBy(s => s.SumpId).Select(g => g.Last()).ToDictionary(s => s.SumpId, s => new StopSkip(s.Reason, s.Words, s.SkippedAtUtc, s.By ?? ""));
    }
}
