using Microsoft.EntityFrameworkCore;
using ShopFluids.Calculations.Additives;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Doses;

/// <summary>A dose in a list.</summary>
/// <param name="Reached">What it came to, in the measure.</param>
/// <param name="LabelMost">In the measure; null where the label says nothing.</param>
/// <param name="By">Empty for a program.</param>
public sealed record DoseRow(
    Guid Id,
    DateTime GivenAtUtc,
    string SumpTag,
    string Product,
    DoseKind Kind,
    decimal Amount,
    DoseUnit Unit,
    decimal VolumeLitres,
    decimal Reached,
    DoseMeasure Measure,
    decimal? LabelMost,
    DateTime? ReentryUntilUtc,
    string Reason,
    string By)
{
    /// <summary>Why a supervisor noted that it was given, against what its label allows; null where it is as it allows.</summary>
    public string? AgainstLabelReason { get; init; }

    /// <summary>It was noted by mistake and counts for nothing; null where it counts.</summary>
    public HistoryCorrection? StruckOut { get; init; }
}

/// <summary>All of one product, measured out in one unit.</summary>
public sealed record DoseTotal(string Product, DoseKind Kind, DoseUnit Unit, int Doses, decimal Amount)
{
    /// <summary>Of those that count, by product, each under the name that it was given last.</summary>
    /// <param name="doses">The latest first.</param>
    public static IReadOnlyList<DoseTotal> Of(IReadOnlyList<DoseRow> doses) =>
    [
        .. doses.Where(d => d.StruckOut is null).GroupBy(d => (Product: ProductNames.KeyOf(d.Product), d.Kind, d.Unit))
            .Select(g => new DoseTotal(g.First().Product, g.Key.Kind, g.Key.Unit, g.Count(), g.Sum(d => d.Amount)))
            .OrderBy(t => t.Kind).ThenBy(t => t.Product, StringComparer.Ordinal).ThenBy(t => t.Unit),
    ];
}

/// <summary>A sump into which a dose may go.</summary>
/// <param name="VolumeLitres">What it holds by the record; null where no level was ever read.</param>
/// <param name="Doses">Those of its charge, the latest first.</param>
/// <param name="Products">The products that were noted before in the shop, by name.</param>
public sealed record DosePage(SumpPlace Place, DateTime NowUtc, double? VolumeLitres, IReadOnlyList<DoseRow> Doses, IReadOnlyList<string> Products);

public sealed class DosesQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <summary>The page of a sump, or why there is none: not known, retired, empty.</summary>
    public async Task<Result<DosePage>> OfSumpAsync(string sumpTag, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        if (SumpWithCharge.Find(setup, sumpTag).IsRefused(out var refusal, out var found))
        {
            return refusal;
        }

        var (sump, charge) = found;

        var volume = await db.Standings.AsNoTracking().Where(s => s.SumpId == sump.Id).Select(s => s.VolumeLitres).FirstOrDefaultAsync(cancellationToken);
        return new DosePage(
            SumpPlace.Of(setup, sump, volume),
            clock.UtcNow,
            volume,
            await ReadAsync(db, setup, doses => doses.Where(d => d.ChargeId == charge.Id), cancellationToken),
            [.. (await ProductsAsync(db, cancellationToken)).Order(StringComparer.CurrentCultureIgnoreCase)]);
    }

    /// <summary>The products of the doses that count, each as it was spelled first.</summary>
    internal static async Task<IReadOnlyList<string>> ProductsAsync(ShopFluidsDbContext db, CancellationToken cancellationToken)
    {
        var spellings = await StandingDoses.Of(db).GroupBy(d => d.Product).Select(g => new { Product = g.Key, FirstUtc = g.Min(d => d.NotedAtUtc) }).ToListAsync(cancellationToken);
        return [.. spellings.OrderBy(s => s.FirstUtc).ThenBy(s => s.Product, StringComparer.Ordinal).Select(s => s.Product).DistinctBy(ProductNames.KeyOf)];
    }

    /// <summary>Some of all doses, the latest first; those that are struck out, too.</summary>
    internal static async Task<IReadOnlyList<DoseRow>> ReadAsync(ShopFluidsDbContext db, ShopSetup setup, Func<IQueryable<Dose>, IQueryable<Dose>> which, CancellationToken cancellationToken)
    {
        var doses = await which(db.Doses.AsNoTracking()).OrderByDescending(d => d.GivenAtUtc).ThenByDescending(d => d.Id).ToListAsync(cancellationToken);
        var ids = doses.ConvertAll(d => d.Id);
        var strikes = ids.Count == 0 ? [] : await db.DoseStrikes.AsNoTracking().Where(s => ids.Contains(s.DoseId)).ToDictionaryAsync(s => s.DoseId, cancellationToken);
        var people = doses.Select(d => d.PersonId).Concat(strikes.Values.Select(s => s.PersonId)).OfType<Guid>().Distinct().ToList();
        var names = people.Count == 0 ? [] : await db.Users.AsNoTracking().Where(p => people.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.DisplayName, cancellationToken);
        return doses.ConvertAll(d => new DoseRow(
            d.Id,
            d.GivenAtUtc,
            setup.FindSump(d.SumpId)?.Tag ?? "",
            d.Product,
            d.Kind,
            d.Amount,
            d.Unit,
            d.VolumeLitres,
            d.Reached,
            d.Measure,
            d.LabelMost,
            d.ReentryUntilUtc,
            d.Reason,
            Name(d.PersonId))
        {
            AgainstLabelReason = d.AgainstLabelReason,
            StruckOut = strikes.GetValueOrDefault(d.Id) is { } strike ? new(strike.StruckAtUtc, Name(strike.PersonId), strike.Reason) : null,
        });

        string Name(Guid? personId) => personId is { } id ? names.GetValueOrDefault(id, "") : "";
    }
}
