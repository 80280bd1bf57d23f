using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Doses;

/// <summary>People keep away from a sump until an instant, by the label of what was put in; also after it was drained.</summary>
public sealed record KeepAway(DateTime UntilUtc, string Product);

/// <summary>Asks from which sumps people keep away. Part of the page that is opened most often, hence compiled once; a compiled query is of one model, hence no static.</summary>
internal sealed class KeepAwayQuery
{
    private readonly Func<ShopFluidsDbContext, Guid, DateTime, IAsyncEnumerable<Dose>> _ofSump =
        EF.CompileAsyncQuery((ShopFluidsDbContext db, Guid sumpId, DateTime fromUtc) => db.Doses.AsNoTracking()
            .Where(d => d.SumpId == sumpId && d.GivenAtUtc > fromUtc && d.ReentryHours != null && !db.DoseStrikes.Any(s => s.DoseId == d.Id)));

    /// <summary>Null where nobody has to.</summary>
    public async Task<KeepAway?> OfSumpAsync(ShopFluidsDbContext db, Guid sumpId, DateTime nowUtc, CancellationToken cancellationToken) =>
        Latest(await _ofSump(db, sumpId, Earliest(nowUtc)).ToListAsync(cancellationToken), nowUtc);

    /// <summary>Everything that was put in and may still keep people away, now or later.</summary>
    public static async Task<IReadOnlyList<Dose>> DosesAsync(ShopFluidsDbContext db, DateTime nowUtc, CancellationToken cancellationToken)
    {
        var earliest = Earliest(nowUtc);
        return await StandingDoses.Of(db).AsNoTracking().Where(d => d.GivenAtUtc > earliest && d.ReentryHours != null).ToListAsync(cancellationToken);
    }

    /// <summary>By sump; without those where nobody has to.</summary>
    public static IReadOnlyDictionary<Guid, KeepAway> BySump(IEnumerable<Dose> doses, DateTime nowUtc)
    {
        var bySump = new Dictionary<Guid, KeepAway>();
        foreach (var ofSump in doses.GroupBy(d => d.SumpId))
        {
            if (Latest(ofSump, nowUtc) is { } keepAway)
            {
                bySump[ofSump.Key] = keepAway;
            }
        }

        return bySump;
    }

    private static DateTime Earliest(DateTime nowUtc) => nowUtc.AddHours(-(double)DoseChecks.MostReentryHours);

    private static KeepAway? Latest(IEnumerable<Dose> doses, DateTime nowUtc) =>
        doses.Where(d => d.ReentryUntilUtc > nowUtc).MaxBy(d => d.ReentryUntilUtc) is { ReentryUntilUtc: { } until } dose ? new(until, dose.Product) : null;
}
