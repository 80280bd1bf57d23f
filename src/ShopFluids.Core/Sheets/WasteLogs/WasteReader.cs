using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Stores;

namespace ShopFluids.Core.Sheets.WasteLogs;

internal enum WasteSource
{
    /// <summary>Taken out to make room.</summary>
    Removal,

    /// <summary>The end of a charge without a clean-out.</summary>
    Drain,

    /// <summary>A step of a clean-out.</summary>
    CleanOut,

    /// <summary>Concentrate thrown away.</summary>
    Lot,
}

/// <summary>Waste of one code at one moment.</summary>
/// <param name="From">Tag of the sump or number of the lot.</param>
/// <param name="Code">Null where none is on record.</param>
/// <param name="Step">Of a clean-out.</param>
/// <param name="HalogensMgPerKg">Of all waste of a clean-out; null where it was not tested.</param>
internal sealed record WasteFact(
    DateTime AtUtc, WasteSource Source, string From, string? Code, decimal Litres, string Carrier, Guid? PersonId, CleanOutStepKind? Step = null, decimal? HalogensMgPerKg = null, Guid? CleanOutId = null);

/// <summary>Reads what left sumps and stores, and counts nothing twice.</summary>
internal sealed class WasteReader(ShopFluidsDbContext db, ShopSetup setup, DateTime fromUtc, DateTime toUtc)
{
    /// <summary>The latest first.</summary>
    public async Task<List<WasteFact>> ReadAsync(CancellationToken cancellationToken) =>
        [.. (await RemovalsAsync(cancellationToken)).Concat(await CleanOutsAsync(cancellationToken)).Concat(await LotsAsync(cancellationToken))
            .OrderByDescending(w => w.AtUtc).ThenBy(w => w.From, StringComparer.Ordinal).ThenBy(w => w.Step).ThenBy(w => w.Code, StringComparer.Ordinal)];

    // What a finished clean-out drained is noted at its steps, by code.
    private async Task<List<WasteFact>> RemovalsAsync(CancellationToken cancellationToken)
    {
        var removals = await (
            from removal in db.Removals.AsNoTracking()
            join charge in db.Charges on removal.ChargeId equals charge.Id
            where removal.RemovedAtUtc >= fromUtc && removal.RemovedAtUtc < toUtc && removal.Litres > 0
            where removal.Reason != RemovalReasons.Drain || !db.CleanOuts.Any(c => c.ChargeId == charge.Id && c.NewChargeId != null)
            select new { removal.RemovedAtUtc, removal.Reason, removal.Litres, removal.PersonId, charge.SumpId, charge.FluidId }).ToListAsync(cancellationToken);
        return removals.ConvertAll(r => new WasteFact(
            r.RemovedAtUtc, r.Reason == RemovalReasons.Drain ? WasteSource.Drain : WasteSource.Removal, TagOf(r.SumpId), CodeOf(r.FluidId), r.Litres, "", r.PersonId));
    }

    private async Task<List<WasteFact>> CleanOutsAsync(CancellationToken cancellationToken)
    {
        var steps = await (
            from step in db.CleanOutSteps.AsNoTracking()
            join cleanOut in db.CleanOuts on step.CleanOutId equals cleanOut.Id
            where step.DoneAtUtc >= fromUtc && step.DoneAtUtc < toUtc
            select new { Step = step, cleanOut.SumpId, IsBrokenOff = cleanOut.BrokenOffReason != null }).ToListAsync(cancellationToken);
        var ids = steps.Select(s => s.Step.CleanOutId).Distinct().ToList();
        var carriers = ids.Count == 0
            ? []
            : (await db.CleanOutSteps.AsNoTracking().Where(s => s.Kind == CleanOutStepKind.Carrier && ids.Contains(s.CleanOutId)).ToListAsync(cancellationToken)).ToDictionary(s => s.CleanOutId, s => s.Noted);

        // The draining of a clean-out that was broken off is counted where the charge ended.
        return [.. steps.Where(s => !(s.IsBrokenOff && s.Step.Kind == CleanOutStepKind.Drain)).SelectMany(s => (s.Step.Noted.Waste ?? []).Select(w => new WasteFact(
            s.Step.DoneAtUtc,
            WasteSource.CleanOut,
            TagOf(s.SumpId),
            w.Code.Length == 0 ? null : w.Code,
            w.Litres,
            carriers.GetValueOrDefault(s.Step.CleanOutId)?.Text ?? "",
            s.Step.PersonId,
            s.Step.Kind,
            carriers.GetValueOrDefault(s.Step.CleanOutId)?.HalogensMgPerKg,
            s.Step.CleanOutId)))];
    }

    private async Task<List<WasteFact>> LotsAsync(CancellationToken cancellationToken)
    {
        var discarded = await (
            from adjustment in db.LotAdjustments.AsNoTracking()
            join lot in db.FluidLots on adjustment.LotId equals lot.Id
            where adjustment.Kind == AdjustmentKind.Discarded && adjustment.AdjustedAtUtc >= fromUtc && adjustment.AdjustedAtUtc < toUtc
            select new { Adjustment = adjustment, lot.Number }).ToListAsync(cancellationToken);

        // The code of the spent mix is not that of the concentrate.
        return discarded.ConvertAll(d => new WasteFact(
            d.Adjustment.AdjustedAtUtc, WasteSource.Lot, d.Number, null, d.Adjustment.BeforeLitres - d.Adjustment.AfterLitres, d.Adjustment.Reason, d.Adjustment.PersonId));
    }

    private string TagOf(Guid sumpId) => setup.FindSump(sumpId)?.Tag ?? "";

    // Only what the shop itself wrote down of its fluid: a proposal is no record.
    private string? CodeOf(Guid fluidId) => setup.Fluid(fluidId).WasteCode is { } code && !string.IsNullOrWhiteSpace(code) ? code.Trim() : null;
}
