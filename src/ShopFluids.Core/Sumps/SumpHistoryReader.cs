using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;

namespace ShopFluids.Core.Sumps;

/// <summary>Reads what happened at a sump from one instant up to, not including, another.</summary>
internal sealed class SumpHistoryReader(ShopFluidsDbContext db, ShopSetup setup, Guid sumpId, DateTime fromUtc, DateTime toUtc)
{
    private Dictionary<Guid, string> _names = [];

    public async Task<SumpHistory> ReadAsync(CancellationToken cancellationToken)
    {
        _names = await db.Users.AsNoTracking().ToDictionaryAsync(p => p.Id, p => p.DisplayName, cancellationToken);
        return new(
            await ReadingsAsync(cancellationToken),
            await MovementsAsync(cancellationToken),
            await FlagsAsync(cancellationToken),
            await TasksAsync(cancellationToken))
        {
            CleanOuts = await CleanOutsAsync(cancellationToken),
            Doses = await DosesQuery.ReadAsync(db, setup, doses => doses.Where(d => d.SumpId == sumpId && d.GivenAtUtc >= fromUtc && d.GivenAtUtc < toUtc), cancellationToken),
            Skips = await SkipsAsync(cancellationToken),
        };
    }

    public async Task<IReadOnlyList<HistoryMovement>> MovementsOnlyAsync(CancellationToken cancellationToken)
    {
        _names = await db.Users.AsNoTracking().ToDictionaryAsync(p => p.Id, p => p.DisplayName, cancellationToken);
        return await MovementsAsync(cancellationToken);
    }

    private string Name(Guid? personId) => personId is { } id ? _names.GetValueOrDefault(id, "") : "";

    private async Task<List<HistorySkip>> SkipsAsync(CancellationToken cancellationToken)
    {
        var skips = await db.SkippedStops.AsNoTracking()
            .Where(s => s.SumpId == sumpId && s.SkippedAtUtc >= fromUtc && s.SkippedAtUtc < toUtc)
            .OrderByDescending(s => s.SkippedAtUtc).ThenByDescending(s => s.Id)
            .ToListAsync(cancellationToken);
        return skips.ConvertAll(s => new HistorySkip(s.Id, s.SkippedAtUtc, s.Reason, s.Words, Name(s.PersonId)));
    }

    private async Task<List<HistoryReading>> ReadingsAsync(CancellationToken cancellationToken)
    {
        var readings = await db.Readings.AsNoTracking().Include(r => r.Measurements)
            .Where(r => r.SumpId == sumpId && r.TakenAtUtc >= fromUtc && r.TakenAtUtc < toUtc)
            .OrderByDescending(r => r.TakenAtUtc).ThenByDescending(r => r.StoredAtUtc).ThenByDescending(r => r.Id)
            .ToListAsync(cancellationToken);

        // A correction may have been taken outside the stretch and still speaks of a reading inside it.
        var corrections = await db.Readings.AsNoTracking()
            .Where(r => r.SumpId == sumpId && r.SupersedesId != null)
            .Select(r => new { r.Id, r.SupersedesId, r.StoredAtUtc, r.PersonId, r.CorrectionReason })
            .ToListAsync(cancellationToken);
        var bySuperseded = corrections.ToDictionary(c => c.SupersedesId ?? Guid.Empty, c => new HistoryCorrection(c.StoredAtUtc, Name(c.PersonId), c.CorrectionReason ?? ""));
        var lateSlides = await LateSlidesAsync(corrections.ToDictionary(c => c.SupersedesId ?? Guid.Empty, c => c.Id), cancellationToken);
        var order = setup.Parameters.Select((p, n) => (p.Code, n)).ToDictionary(p => p.Code, p => p.n, StringComparer.Ordinal);
        return readings.ConvertAll(r => new HistoryReading(
            r.Id,
            r.TakenAtUtc,
            Name(r.PersonId),
            r.Verdict,
            SideOf(r),
            [.. r.Measurements.OrderBy(m => order.GetValueOrDefault(m.Parameter, int.MaxValue)).ThenBy(m => m.Method == MethodCodes.Titration ? 0 : 1).ThenBy(m => m.Method, StringComparer.Ordinal)
                .Select(m => new HistoryMeasurement(m.Parameter, m.Method, m.RawValue, m.RawUnit, m.Value, m.Uncertainty, m.Verdict, m.Direction, m.Factor, m.InstrumentId))],
            r.Note,
            bySuperseded.GetValueOrDefault(r.Id))
        {
            LateSlide = lateSlides.GetValueOrDefault(r.Id),
        });
    }

    // A corrected value is still of a slide that was read late.
    private async Task<Dictionary<Guid, HistoryLateSlide>> LateSlidesAsync(Dictionary<Guid, Guid> corrections, CancellationToken cancellationToken)
    {
        var slides = await db.Slides.AsNoTracking().Where(s => s.SumpId == sumpId && s.ReadingId != null && s.EndedAtUtc > s.ReadUntilUtc).ToListAsync(cancellationToken);
        var late = new Dictionary<Guid, HistoryLateSlide>();
        foreach (var slide in slides)
        {
            for (Guid? id = slide.ReadingId; id is { } reading; id = corrections.TryGetValue(reading, out var next) ? next : null)
            {
                late[reading] = new(slide.EndedAtUtc ?? slide.ReadUntilUtc, slide.ReadUntilUtc);
            }
        }

        return late;
    }

    // Two values beyond on different sides have no side together.
    private static Direction SideOf(Reading reading)
    {
        var sides = reading.Measurements.Where(m => m.Verdict == reading.Verdict).Select(m => m.Direction).Distinct().ToList();
        return sides.Count == 1 ? sides[0] : Direction.None;
    }

    private async Task<List<HistoryMovement>> MovementsAsync(CancellationToken cancellationToken)
    {
        var additions = await (from addition in db.Additions.AsNoTracking()
                               join charge in db.Charges on addition.ChargeId equals charge.Id
                               where charge.SumpId == sumpId && addition.AddedAtUtc >= fromUtc && addition.AddedAtUtc < toUtc
                               select new { Addition = addition, charge.FilledAtUtc }).ToListAsync(cancellationToken);
        var removals = await (from removal in db.Removals.AsNoTracking()
                              join charge in db.Charges on removal.ChargeId equals charge.Id
                              where charge.SumpId == sumpId && removal.RemovedAtUtc >= fromUtc && removal.RemovedAtUtc < toUtc
                              select removal).ToListAsync(cancellationToken);
        var lots = await LotsAsync([.. additions.Select(a => a.Addition.LotId).OfType<Guid>().Distinct()], cancellationToken);
        return
        [
            .. additions.Select(a => new HistoryMovement(
                    a.Addition.Id,
                    a.Addition.ChargeId,
                    Addition.IsFill(a.Addition.AddedAtUtc, a.Addition.ReadingId, a.FilledAtUtc) ? MovementKind.Fill : MovementKind.Addition,
                    a.Addition.AddedAtUtc,
                    a.Addition.WaterLitres,
                    a.Addition.ConcentrateLitres,
                    0,
                    a.Addition.LotId is { } lot ? lots.GetValueOrDefault(lot) : null,
                    Name(a.Addition.PersonId),
                    a.Addition.OverrideReason ?? "")
                {
                    Unusual = a.Addition.Unusual ?? UnusualAddition.None,
                })
                .Concat(removals.Select(r => new HistoryMovement(
                    r.Id,
                    r.ChargeId,
                    r.Reason == RemovalReasons.Drain ? MovementKind.Drain : MovementKind.Removal,
                    r.RemovedAtUtc,
                    0,
                    0,
                    r.Litres,
                    null,
                    Name(r.PersonId),
                    r.Reason is RemovalReasons.Drain or RemovalReasons.Swap ? "" : r.Reason)))
                .OrderByDescending(m => m.AtUtc).ThenBy(m => m.Kind).ThenByDescending(m => m.Id),
        ];
    }

    private async Task<Dictionary<Guid, HistoryLot>> LotsAsync(List<Guid> ids, CancellationToken cancellationToken)
    {
        var lots = await db.FluidLots.AsNoTracking().Where(l => ids.Contains(l.Id)).ToListAsync(cancellationToken);
        return lots.ToDictionary(l => l.Id, l => new HistoryLot(l.Id, l.Number, setup.Fluid(l.FluidId).Name, l.ReceivedOn, l.ExpiresOn));
    }

    private async Task<List<HistoryFlag>> FlagsAsync(CancellationToken cancellationToken)
    {
        var flags = await db.Flags.AsNoTracking()
            .Where(f => f.SumpId == sumpId && f.RaisedAtUtc < toUtc && (f.EndedAtUtc == null || f.EndedAtUtc >= fromUtc))
            .OrderByDescending(f => f.RaisedAtUtc).ThenByDescending(f => f.Severity).ThenBy(f => f.Rule).ThenBy(f => f.Parameter).ThenBy(f => f.Id)
            .ToListAsync(cancellationToken);
        var endedBy = flags.Where(f => f.EndedHow == FlagEnd.Cleared).Select(f => f.EndedByReadingId).OfType<Guid>().Distinct().ToList();
        var raised = await db.Flags.AsNoTracking().Where(f => f.SumpId == sumpId && f.ReadingId != null && f.RejudgementId == null && endedBy.Contains(f.ReadingId ?? Guid.Empty)).ToListAsync(cancellationToken);
        var replacing = raised.ToDictionary(f => (f.ReadingId, f.Rule, f.Parameter), f => new HistoryFlagReplacement(f.Severity, f.Direction, f.Numbers));
        return flags.ConvertAll(f => new HistoryFlag(
            f.Id,
            f.Rule,
            f.Parameter,
            f.Severity,
            f.Direction,
            f.Numbers,
            f.RaisedAtUtc,
            f.EndedAtUtc,
            f.EndedHow,
            Name(f.EndedByPersonId),
            f.EndReason ?? "",
            f.EndedHow == FlagEnd.Cleared ? replacing.GetValueOrDefault((f.EndedByReadingId, f.Rule, f.Parameter)) : null));
    }

    private async Task<List<HistoryTask>> TasksAsync(CancellationToken cancellationToken)
    {
        var tasks = await db.CareTasks.AsNoTracking()
            .Where(t => t.SumpId == sumpId && t.State != TaskState.Open && t.EndedAtUtc >= fromUtc && t.EndedAtUtc < toUtc)
            .OrderByDescending(t => t.EndedAtUtc).ThenBy(t => t.Kind).ThenBy(t => t.Id)
            .ToListAsync(cancellationToken);
        var doses = tasks.Select(t => t.EndedByDoseId).OfType<Guid>().ToList();
        var struck = doses.Count == 0 ? [] : await db.DoseStrikes.AsNoTracking().Where(s => doses.Contains(s.DoseId)).Select(s => s.DoseId).ToListAsync(cancellationToken);
        var redated = tasks.Where(t => t.IsRedated).Select(t => (Guid?)t.Id).ToList();
        var redatedTo = redated.Count == 0 ? [] : await db.CareTasks.AsNoTracking()
            .Where(t => t.SumpId == sumpId && redated.Contains(t.InsteadOfId))
            .ToDictionaryAsync(t => t.InsteadOfId ?? t.Id, t => t.DueAtUtc, cancellationToken);
        return tasks.ConvertAll(t => new HistoryTask(t.Id, t.Kind, t.Cause, t.Recipe, t.DueAtUtc, t.State, t.EndedAtUtc ?? t.DueAtUtc, Name(t.EndedByPersonId), t.EndReason ?? "", t.Found)
        {
            RedatedToUtc = redatedTo.TryGetValue(t.Id, out var to) ? to : null,
            IsOfStruckDose = t.EndedByDoseId is { } dose && struck.Contains(dose),
        });
    }

    private async Task<List<HistoryCleanOut>> CleanOutsAsync(CancellationToken cancellationToken)
    {
        var cleanOuts = await db.CleanOuts.AsNoTracking()
            .Where(c => c.SumpId == sumpId && c.BegunAtUtc < toUtc && (c.EndedAtUtc == null || c.EndedAtUtc >= fromUtc))
            .OrderByDescending(c => c.BegunAtUtc).ThenBy(c => c.Id)
            .ToListAsync(cancellationToken);
        var ids = cleanOuts.ConvertAll(c => c.Id);
        var steps = ids.Count == 0 ? [] : await db.CleanOutSteps.AsNoTracking().Where(s => ids.Contains(s.CleanOutId)).OrderBy(s => s.Kind).ToListAsync(cancellationToken);
        return cleanOuts.ConvertAll(c => new HistoryCleanOut(
            c.Id,
            c.BegunAtUtc,
            c.EndedAtUtc,
            Name(c.EndedByPersonId),
            c.BrokenOffReason,
            [.. steps.Where(s => s.CleanOutId == c.Id).Select(s => new HistoryCleanOutStep(s.Kind, s.Noted, s.DoneAtUtc, Name(s.PersonId)))]));
    }
}
