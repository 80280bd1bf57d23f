using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Stores;

/// <summary>Where a lot went: which charges ran on it, in which sumps of which machines, from when to when, and what else went into them.</summary>
/// <param name="From">The first shop day looked at; null for the beginning.</param>
/// <param name="To">The last; null for today.</param>
/// <param name="Charges">Those in which the lot was at any time of the stretch, by the sump's walking order, then by charge.</param>
public sealed record LotTrace(ShopSetup Setup, DateTime AtUtc, LotRow Lot, DateOnly? From, DateOnly? To, IReadOnlyList<TracedCharge> Charges, IReadOnlyList<TracedAdjustment> Adjustments)
{
    /// <summary>Drawn from the lot and poured, over all its life, L.</summary>
    public decimal PouredLitres { get; init; }

    /// <summary>What is left over when pours and adjustments are taken from what was received; not nought means that the books were changed past the program, L.</summary>
    public decimal UnexplainedLitres => Lot.ReceivedLitres - PouredLitres - Adjustments.Sum(a => a.BeforeLitres - a.AfterLitres) - Lot.RemainingLitres;
}

/// <summary>A charge in which a lot was.</summary>
/// <param name="Machines">Tags of the machines that the sump serves.</param>
/// <param name="FirstUtc">When the lot first went in.</param>
/// <param name="UntilUtc">When the charge was drained; null while it is still in.</param>
/// <param name="Litres">Of the lot, over the charge's life, L.</param>
/// <param name="Pours">Each time that it was poured, the first one first.</param>
/// <param name="OtherLots">The other lots that went into the same charge.</param>
public sealed record TracedCharge(
    string SumpTag, IReadOnlyList<string> Machines, int ChargeNumber, DateTime FirstUtc, DateTime? UntilUtc, decimal Litres, IReadOnlyList<TracedPour> Pours, IReadOnlyList<TracedLot> OtherLots);

/// <param name="OverrideReason">Why a supervisor let an expired or quarantined lot be used; null where nobody had to.</param>
public sealed record TracedPour(DateTime AtUtc, decimal ConcentrateLitres, decimal WaterLitres, bool IsFill, string Who, string? OverrideReason);

/// <summary>A lot in a charge.</summary>
public sealed record TracedLot(Guid LotId, string Number, string FluidName, DateTime FirstUtc, DateTime LastUtc, decimal Litres);

public sealed record TracedAdjustment(DateTime AtUtc, AdjustmentKind Kind, decimal BeforeLitres, decimal AfterLitres, string Reason, string Who);

/// <summary>What was in a sump, or in the sumps of a machine: the way back.</summary>
public sealed record SumpLots(string SumpTag, IReadOnlyList<string> Machines, int ChargeNumber, DateTime FilledAtUtc, DateTime? DrainedAtUtc, IReadOnlyList<TracedLot> Lots);

/// <summary>Follows lots to machines and back.</summary>
public sealed class LotTraceQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <summary>Null where there is no such lot.</summary>
    public async Task<LotTrace?> OfLotAsync(Guid lotId, DateOnly? from, DateOnly? to, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var today = setup.Calendar.ShopDayOf(clock.UtcNow);
        if ((await LotsQuery.OfAsync(db, today, cancellationToken, lotId)).SingleOrDefault() is not { } lot)
        {
            return null;
        }

        var names = await db.Users.AsNoTracking().ToDictionaryAsync(p => p.Id, p => p.DisplayName, cancellationToken);
        var chargeIds = await db.Additions.AsNoTracking().Where(a => a.LotId == lotId).Select(a => a.ChargeId).Distinct().ToListAsync(cancellationToken);
        var charges = await ChargesAsync(db, chargeIds, cancellationToken);
        var traced = charges.Select(c => Traced(setup, c, lotId, names)).Where(c => Meets(setup, c.FirstUtc, c.UntilUtc, from, to));
        var adjustments = await db.LotAdjustments.AsNoTracking().Where(a => a.LotId == lotId).OrderBy(a => a.AdjustedAtUtc).ThenBy(a => a.Id).ToListAsync(cancellationToken);
        return new(
            setup,
            clock.UtcNow,
            lot,
            from,
            to,
            [.. traced.OrderBy(c => PlaceOf(setup, c.SumpTag)).ThenBy(c => c.ChargeNumber)],
            adjustments.ConvertAll(a => new TracedAdjustment(a.AdjustedAtUtc, a.Kind, a.BeforeLitres, a.AfterLitres, a.Reason, a.PersonId is { } id ? names.GetValueOrDefault(id, "") : "")))
        {
            PouredLitres = charges.SelectMany(c => c.Pours).Where(p => p.LotId == lotId).Sum(p => p.Concentrate),
        };
    }

    /// <summary>The lots in the charges of these sumps that were in at any time of the stretch, the latest charge of a sump first.</summary>
    public async Task<IReadOnlyList<SumpLots>> OfSumpsAsync(IReadOnlyCollection<Guid> sumpIds, DateOnly? from, DateOnly? to, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(sumpIds);
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var chargeIds = await db.Charges.AsNoTracking().Where(c => sumpIds.Contains(c.SumpId)).Select(c => c.Id).ToListAsync(cancellationToken);
        return [.. (await ChargesAsync(db, chargeIds, cancellationToken))
            .Where(c => Meets(setup, c.FilledAtUtc, c.DrainedAtUtc, from, to))
            .Select(c => new SumpLots(TagOf(setup, c.SumpId), MachinesOf(setup, c.SumpId), c.Number, c.FilledAtUtc, c.DrainedAtUtc, LotsOf(setup, c.Pours)))
            .OrderBy(c => PlaceOf(setup, c.SumpTag)).ThenByDescending(c => c.ChargeNumber)];
    }

    private static TracedCharge Traced(ShopSetup setup, ChargeRow charge, Guid lotId, Dictionary<Guid, string> names)
    {
        var pours = charge.Pours.Where(p => p.LotId == lotId).OrderBy(p => p.AtUtc).ToList();
        return new(
            TagOf(setup, charge.SumpId),
            MachinesOf(setup, charge.SumpId),
            charge.Number,
            pours[0].AtUtc,
            charge.DrainedAtUtc,
            pours.Sum(p => p.Concentrate),
            pours.ConvertAll(p => new TracedPour(p.AtUtc, p.Concentrate, p.Water, Addition.IsFill(p.AtUtc, p.ReadingId, charge.FilledAtUtc), names.GetValueOrDefault(p.PersonId, ""), p.OverrideReason)),
            LotsOf(setup, charge.Pours.Where(p => p.LotId != lotId)));
    }

    private static List<TracedLot> LotsOf(ShopSetup setup, IEnumerable<PourRow> pours) =>
        [.. pours.Where(p => p.LotId is not null).GroupBy(p => (p.LotId, p.LotNumber, p.FluidId))
            .Select(g => new TracedLot(g.Key.LotId ?? Guid.Empty, g.Key.LotNumber ?? "", setup.Fluid(g.Key.FluidId ?? Guid.Empty).Name, g.Min(p => p.AtUtc), g.Max(p => p.AtUtc), g.Sum(p => p.Concentrate)))
            .OrderBy(l => l.FirstUtc).ThenBy(l => l.Number, StringComparer.Ordinal)];

    private static async Task<List<ChargeRow>> ChargesAsync(ShopFluidsDbContext db, IReadOnlyCollection<Guid> chargeIds, CancellationToken cancellationToken)
    {
        var charges = await db.Charges.AsNoTracking().Where(c => chargeIds.Contains(c.Id)).ToListAsync(cancellationToken);
        var pours = (await (
            from addition in db.Additions.AsNoTracking()
            join lot in db.FluidLots on addition.LotId equals lot.Id into lots
            from lot in lots.DefaultIfEmpty()
            where chargeIds.Contains(addition.ChargeId)
            select new PourRow(
                addition.ChargeId,
                addition.AddedAtUtc,
                addition.ConcentrateLitres,
                addition.WaterLitres,
                addition.LotId,
                lot == null ? null : lot.Number,
                lot == null ? null : lot.FluidId,
                addition.ReadingId,
                addition.PersonId,
                addition.OverrideReason)).ToListAsync(cancellationToken)).ToLookup(p => p.ChargeId);
        return charges.ConvertAll(c => new ChargeRow(c.SumpId, c.Number, c.FilledAtUtc, c.DrainedAtUtc, [.. pours[c.Id]]));
    }

    // A charge drained on the first day of the stretch was still in then.
    private static bool Meets(ShopSetup setup, DateTime sinceUtc, DateTime? untilUtc, DateOnly? from, DateOnly? to) =>
        (from is not { } first || untilUtc is not { } until || setup.Calendar.ShopDayOf(until) >= first)
        && (to is not { } last || setup.Calendar.ShopDayOf(sinceUtc) <= last);

    private static string TagOf(ShopSetup setup, Guid sumpId) => setup.FindSump(sumpId)?.Tag ?? "";

    private static List<string> MachinesOf(ShopSetup setup, Guid sumpId) =>
        setup.FindSump(sumpId) is { } sump ? [.. setup.MachinesOf(sump).Select(m => m.Tag)] : [];

    private static int PlaceOf(ShopSetup setup, string tag) => setup.FindSump(tag)?.WalkOrder ?? int.MaxValue;

    private sealed record ChargeRow(Guid SumpId, int Number, DateTime FilledAtUtc, DateTime? DrainedAtUtc, IReadOnlyList<PourRow> Pours);

    private sealed record PourRow(
        Guid ChargeId, DateTime AtUtc, decimal Concentrate, decimal Water, Guid? LotId, string? LotNumber, Guid? FluidId, Guid? ReadingId, Guid PersonId, string? OverrideReason);
}
