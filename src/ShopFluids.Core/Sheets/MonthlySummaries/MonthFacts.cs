using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Stores;
using ShopFluids.Rules;

namespace ShopFluids.Core.Sheets.MonthlySummaries;

internal sealed record TaskCount(TaskKind Kind, int Done, int Late, int Skipped, int StillLate);

internal sealed record FlagCount(string Rule, int Raised, int Ended, int Closed, int Open);

/// <param name="Litres">What was drained at its end.</param>
internal sealed record EndedCharge(Guid SumpId, Guid FluidId, int Number, DateTime FilledAtUtc, DateTime DrainedAtUtc, decimal Litres, bool IsStepByStep);

/// <summary>Everything read for a month.</summary>
internal sealed record MonthFacts(IReadOnlyList<MonthUse> Use, int Readings, int SumpsRead, IReadOnlyList<TaskCount> Tasks, IReadOnlyList<FlagCount> Flags, IReadOnlyList<EndedCharge> Charges);

/// <summary>Counts a month.</summary>
/// <param name="db">The database.</param>
/// <param name="setup">The shop.</param>
/// <param name="fromUtc">Its first instant.</param>
/// <param name="toUtc">The first instant after it.</param>
/// <param name="nowUtc">What is late in a month that is not over, is late now.</param>
internal sealed class MonthReader(ShopFluidsDbContext db, ShopSetup setup, DateTime fromUtc, DateTime toUtc, DateTime nowUtc)
{
    public async Task<MonthFacts> ReadAsync(CancellationToken cancellationToken)
    {
        // Of a corrected visit the reading that counts, at the time that counts.
        var readings = await db.Readings.AsNoTracking().Where(r => r.TakenAtUtc >= fromUtc && r.TakenAtUtc < toUtc && !db.Readings.Any(later => later.SupersedesId == r.Id)).Select(r => r.SumpId).ToListAsync(cancellationToken);
        return new(
            await FluidUse.OfAsync(db, setup, null, fromUtc, toUtc.AddMilliseconds(-1), cancellationToken),
            readings.Count,
            readings.Distinct().Count(),
            await TasksAsync(cancellationToken),
            await FlagsAsync(cancellationToken),
            await ChargesAsync(cancellationToken));
    }

    private async Task<List<TaskCount>> TasksAsync(CancellationToken cancellationToken)
    {
        var judgedUtc = toUtc < nowUtc ? toUtc : nowUtc;
        var tasks = await db.CareTasks.AsNoTracking()
            .Where(t => t.CreatedAtUtc < toUtc && (t.EndedAtUtc == null || t.EndedAtUtc >= fromUtc))
            .Select(t => new { t.Kind, t.State, t.DueAtUtc, t.EndedAtUtc }).ToListAsync(cancellationToken);
        return [.. tasks.GroupBy(t => t.Kind)
            .Select(g =>
            {
                var ended = g.Where(t => t.EndedAtUtc < toUtc).ToList();
                return new TaskCount(
                    g.Key,
                    ended.Count(t => t.State == TaskState.Done),
                    ended.Count(t => t.State == TaskState.Done && t.EndedAtUtc >= t.DueAtUtc),
                    ended.Count(t => t.State == TaskState.Skipped),
                    g.Count(t => (t.EndedAtUtc is null || t.EndedAtUtc >= toUtc) && t.DueAtUtc <= judgedUtc));
            })
            .Where(c => c.Done + c.Skipped + c.StillLate > 0)
            .OrderBy(c => c.Kind)];
    }

    private async Task<List<FlagCount>> FlagsAsync(CancellationToken cancellationToken)
    {
        var flags = await db.Flags.AsNoTracking()
            .Where(f => f.RaisedAtUtc < toUtc && (f.EndedAtUtc == null || f.EndedAtUtc >= fromUtc))
            .Select(f => new { f.Rule, f.RaisedAtUtc, f.EndedAtUtc, IsClosed = f.EndedHow == FlagEnd.Closed }).ToListAsync(cancellationToken);
        var ofShop = await db.ShopFlags.AsNoTracking()
            .Where(f => f.RaisedAtUtc < toUtc && ((f.AnsweredAtUtc == null && f.GoneAtUtc == null) || (f.AnsweredAtUtc ?? f.GoneAtUtc) >= fromUtc))
            .Select(f => new { f.Rule, f.RaisedAtUtc, EndedAtUtc = f.AnsweredAtUtc ?? f.GoneAtUtc, IsClosed = f.AnsweredAtUtc != null }).ToListAsync(cancellationToken);
        return [.. flags.Concat(ofShop).GroupBy(f => f.Rule)
            .Select(g => new FlagCount(
                g.Key,
                g.Count(f => f.RaisedAtUtc >= fromUtc),
                g.Count(f => f.EndedAtUtc < toUtc && !f.IsClosed),
                g.Count(f => f.EndedAtUtc < toUtc && f.IsClosed),
                g.Count(f => f.EndedAtUtc is null || f.EndedAtUtc >= toUtc)))
            .OrderByDescending(c => c.Raised).ThenBy(c => c.Rule, StringComparer.Ordinal)];
    }

    private async Task<List<EndedCharge>> ChargesAsync(CancellationToken cancellationToken)
    {
        var charges = await db.Charges.AsNoTracking().Where(c => c.DrainedAtUtc >= fromUtc && c.DrainedAtUtc < toUtc)
            .Select(c => new
            {
                c.Id,
                c.SumpId,
                c.FluidId,
                c.Number,
                c.FilledAtUtc,
                c.DrainedAtUtc,
                IsStepByStep = db.CleanOuts.Any(o => o.ChargeId == c.Id && o.NewChargeId != null),
            })
            .ToListAsync(cancellationToken);
        var ids = charges.ConvertAll(c => c.Id);
        var drained = (await db.Removals.AsNoTracking().Where(r => ids.Contains(r.ChargeId) && r.Reason == RemovalReasons.Drain).Select(r => new { r.ChargeId, r.Litres }).ToListAsync(cancellationToken))
            .ToLookup(r => r.ChargeId, r => r.Litres);
        return [.. charges.Select(c => new EndedCharge(c.SumpId, c.FluidId, c.Number, c.FilledAtUtc, c.DrainedAtUtc ?? toUtc, drained[c.Id].Sum(), c.IsStepByStep))
            .OrderBy(c => c.DrainedAtUtc).ThenBy(c => c.SumpId)];
    }
}
