using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;

namespace ShopFluids.Core.ShopFlags;

/// <summary>A shop flag with the names of what it is about.</summary>
/// <param name="Subject">The number of the lot, the name of the fluid, or the tag of the instrument.</param>
/// <param name="FluidName">The fluid of the lot; empty for an instrument.</param>
/// <param name="Day">The lot's last day, or the day of the instrument's last check.</param>
public sealed record ListedShopFlag(
    Guid Id,
    string Rule,
    string Aspect,
    Verdict Severity,
    IReadOnlyDictionary<string, decimal> Numbers,
    string Subject,
    string FluidName,
    DateOnly? Day,
    DateTime RaisedAtUtc,
    DateTime DueAtUtc,
    DateTime? EscalatedAtUtc,
    DateTime? AnsweredAtUtc,
    string? Answer,
    DateTime? GoneAtUtc);

/// <summary>Flags about lots, stocks and instruments.</summary>
public sealed class ShopFlagsQuery(ShopDatabase database, SetupCache setups)
{
    /// <summary>Those that are open, the earliest due first.</summary>
    public async Task<IReadOnlyList<ListedShopFlag>> OpenAsync(CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        return await OpenAsync(db, await setups.CurrentAsync(db, cancellationToken), cancellationToken);
    }

    /// <summary>A page of them, the latest raised first.</summary>
    public async Task<ListPage<ListedShopFlag>> RunAsync(bool isOpen, ListPlace? after, int limit, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var flags = db.ShopFlags.AsNoTracking().Where(f => (f.AnsweredAtUtc == null && f.GoneAtUtc == null) == isOpen);
        if (after is not null)
        {
            flags = flags.Where(f => f.RaisedAtUtc < after.AtUtc || (f.RaisedAtUtc == after.AtUtc && f.Id.CompareTo(after.Id) < 0));
        }

        var rows = await flags.OrderByDescending(f => f.RaisedAtUtc).ThenByDescending(f => f.Id).Take(limit + 1).ToListAsync(cancellationToken);
        return ListPlace.Cut(await NamedAsync(db, await setups.CurrentAsync(db, cancellationToken), rows, cancellationToken), limit, f => new ListPlace(f.RaisedAtUtc, f.Id));
    }

    internal static async Task<List<ListedShopFlag>> OpenAsync(ShopFluidsDbContext db, ShopSetup setup, CancellationToken cancellationToken)
    {
        var open = await db.ShopFlags.AsNoTracking().Where(f => f.AnsweredAtUtc == null && f.GoneAtUtc == null)
            .OrderBy(f => f.DueAtUtc).ThenBy(f => f.Rule).ThenBy(f => f.Aspect).ThenBy(f => f.Id)
            .ToListAsync(cancellationToken);
        return await NamedAsync(db, setup, open, cancellationToken);
    }

    internal static async Task<List<ListedShopFlag>> NamedAsync(ShopFluidsDbContext db, ShopSetup setup, IReadOnlyList<ShopFlag> flags, CancellationToken cancellationToken)
    {
        var ids = flags.Select(f => f.SubjectId).Distinct().ToList();
        var lots = ids.Count == 0 ? [] : await db.FluidLots.AsNoTracking().Where(l => ids.Contains(l.Id)).ToDictionaryAsync(l => l.Id, cancellationToken);
        return [.. flags.Select(f =>
        {
            var lot = lots.GetValueOrDefault(f.SubjectId);
            var instrument = setup.Instruments.FirstOrDefault(i => i.Id == f.SubjectId);
            var fluid = setup.Fluids.FirstOrDefault(n => n.Id == (lot?.FluidId ?? f.SubjectId))?.Name ?? "";
            return new ListedShopFlag(
                f.Id,
                f.Rule,
                f.Aspect,
                f.Severity,
                f.Numbers,
                lot?.Number ?? instrument?.Tag ?? fluid,
                fluid,
                lot?.ExpiresOn ?? instrument?.CheckedOn,
                f.RaisedAtUtc,
                f.DueAtUtc,
                f.EscalatedAtUtc,
                f.AnsweredAtUtc,
                f.Answer,
                f.GoneAtUtc);
        })];
    }
}
