using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Readings;

/// <summary>Takes back what a reading led to before another supersedes it.</summary>
internal sealed class ReadingCorrection(ShopFluidsDbContext db, Sump sump)
{
    public async Task<Error?> PrepareAsync(Guid supersededId, Charge charge, DateTime nowUtc, CancellationToken cancellationToken)
    {
        var takenAt = await db.Readings.Where(r => r.Id == supersededId && r.SumpId == sump.Id && r.ChargeId == charge.Id).Select(r => (DateTime?)r.TakenAtUtc).FirstOrDefaultAsync(cancellationToken);
        if (takenAt is null)
        {
            return new ReadingNotFound(supersededId);
        }

        if (await db.Readings.AnyAsync(r => r.SupersedesId == supersededId, cancellationToken))
        {
            return new AlreadySuperseded(supersededId);
        }

        // What a later reading has seen too stands on that one: its flag stays, and the work for it.
        var seenLater = await db.Readings
            .Where(r => r.ChargeId == charge.Id && r.TakenAtUtc > takenAt && !db.Readings.Any(later => later.SupersedesId == r.Id))
            .SelectMany(r => r.Measurements).Select(m => m.Parameter).Distinct()
            .ToListAsync(cancellationToken);
        var kept = new HashSet<string>(StringComparer.Ordinal);
        foreach (var flag in await db.Flags.Where(f => f.ReadingId == supersededId && f.EndedAtUtc == null).ToListAsync(cancellationToken))
        {
            if (seenLater.Contains(flag.Parameter, StringComparer.Ordinal))
            {
                kept.Add(CorrectiveWork.CauseOf(flag.Rule, flag.Parameter));
            }
            else
            {
                flag.End(FlagEnd.Superseded, nowUtc);
            }
        }

        // Work of the plan stays: the visit took place. Work that only a withdrawn finding asked for goes.
        var afterFlags = await db.CareSteps.AsNoTracking().Where(s => s.Basis == IntervalBasis.AfterFlag).ToDictionaryAsync(s => s.Id, s => s.EventParameter, cancellationToken);
        foreach (var task in await db.CareTasks.Where(t => t.ReadingId == supersededId && t.State == TaskState.Open).ToListAsync(cancellationToken))
        {
            string? parameter = null;
            var isAfterFlag = task.StepId is { } stepId && afterFlags.TryGetValue(stepId, out parameter);
            var isKept = isAfterFlag
                ? kept.Any(cause => parameter is null || cause.EndsWith($":{parameter}", StringComparison.Ordinal))
                : task.StepId is not null || kept.Contains(task.Cause);
            if (!isKept)
            {
                task.End(TaskState.Withdrawn, nowUtc, null);
            }
        }

        return null;
    }

    /// <summary>
    /// On which parameters the superseded reading had a say: what it measured, and what it raised itself by being a correction. Their latest
    /// values are judged again; not where a supervisor has closed a flag since that value, for that was the last word on it.
    /// </summary>
    /// <param name="facts">The standing without the superseded reading.</param>
    public async Task<IReadOnlyList<string>> ReassessAsync(Guid supersededId, StandingFacts? facts, CancellationToken cancellationToken)
    {
        if (facts is null)
        {
            return [];
        }

        var measured = await db.Measurements.Where(m => m.ReadingId == supersededId).Select(m => m.Parameter).ToListAsync(cancellationToken);
        var raised = await db.Flags.Where(f => f.ReadingId == supersededId).Select(f => f.Parameter).ToListAsync(cancellationToken);
        var closed = await db.Flags.AsNoTracking()
            .Where(f => f.SumpId == sump.Id && f.EndedHow == FlagEnd.Closed && f.EndedAtUtc >= facts.FilledAt)
            .Select(f => new { f.Parameter, f.EndedAtUtc })
            .ToListAsync(cancellationToken);
        return Reassessed(measured, raised, [.. closed.Select(c => (c.Parameter, c.EndedAtUtc ?? default))], facts);
    }

    /// <param name="measured">What the superseded reading measured.</param>
    /// <param name="raised">The parameters of the flags that it raised.</param>
    /// <param name="closed">Flags that a supervisor closed since the fill.</param>
    /// <param name="facts">The standing without the superseded reading.</param>
    public static IReadOnlyList<string> Reassessed(IEnumerable<string> measured, IEnumerable<string> raised, IReadOnlyList<(string Parameter, DateTime AtUtc)> closed, StandingFacts facts) =>
        [.. measured.Union(raised, StringComparer.Ordinal)
            .Where(p => facts.Latest.TryGetValue(p, out var latest) && !closed.Any(c => c.Parameter == p && c.AtUtc >= latest.TakenAt))
            .Order(StringComparer.Ordinal)];
}
