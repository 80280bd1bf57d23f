using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Rejudging;

/// <summary>Judges one sump again: each reading that still has the latest value of something, the oldest first.</summary>
internal sealed class SumpRejudge(ShopWrite write, ShopSetup setup, ShopClock clock, Rejudgement act)
{
    private readonly ChargeHistoryQuery _history = new();

    /// <returns>Null where nothing was read in this charge.</returns>
    public async Task<RejudgedSump?> RunAsync(Sump sump, Charge charge, CancellationToken cancellationToken)
    {
        var db = write.Database;
        var standing = await db.Standings.AsNoTracking().FirstOrDefaultAsync(s => s.SumpId == sump.Id, cancellationToken);
        if (standing?.Facts is not { Latest.Count: > 0 } facts)
        {
            return null;
        }

        var judge = ReadingJudge.For(setup, sump, charge, act.AtUtc);
        var closed = (await db.Flags.AsNoTracking().Where(f => f.SumpId == sump.Id && f.EndedHow == FlagEnd.Closed && f.EndedAtUtc >= facts.FilledAt).ToListAsync(cancellationToken))
            .ConvertAll(f => (f.Rule, f.Parameter, f.EndedAtUtc));
        var (raised, ended) = (new List<Guid>(), new List<Guid>());
        var flags = facts.OpenFlags.ToList();
        var tasks = facts.OpenTasks.ToList();
        foreach (var reading in await LatestAsync(charge, facts, cancellationToken))
        {
            var history = await _history.RunAsync(db, charge, reading.TakenAt, cancellationToken);
            var stay = closed.Where(f => f.EndedAtUtc >= reading.TakenAt).Select(f => (f.Rule, f.Parameter)).ToHashSet();
            var found = judge.JudgeAgain(reading, StandingFold.With(facts, flags, tasks), history, stay, act.AtUtc);
            await EndAsync(found, cancellationToken);
            flags.RemoveAll(f => found.Cleared.Contains(f.Id));
            tasks.RemoveAll(t => found.WithdrawnTasks.Contains(t.Id));
            ended.AddRange(found.Cleared);
            foreach (var flag in found.Raised)
            {
                var made = new Flag(clock.NewId(), sump.Id, charge.Id, flag, reading.Id, act.AtUtc, judge.Limits.SetOf(flag.Parameter)?.Id, judge.Tunings.NumbersOf(flag.Rule), act.Id);
                db.Add(made);
                flags.Add(made.ToOpen());
                raised.Add(made.Id);
            }

            foreach (var proposed in found.NewTasks)
            {
                var made = new CareTask(clock.NewId(), sump.Id, proposed.Kind, proposed.Cause, proposed.StepId, proposed.DueAt, act.AtUtc, reading.Id, proposed.FromRecipe ? found.Recipe : null);
                db.Add(made);
                tasks.Add(made.ToOpen());
            }

            await write.FlushAsync(cancellationToken);
        }

        if (raised.Count + ended.Count > 0)
        {
            await LateTestFlag.EndWhenNoneIsLateAsync(write, sump.Id, act.AtUtc, act.PersonId, cancellationToken);
            await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        }

        return new(sump.Tag, raised, ended);
    }

    private async Task EndAsync(SecondJudgement found, CancellationToken cancellationToken)
    {
        var (flagIds, taskIds) = (found.Cleared.ToList(), found.WithdrawnTasks.ToList());
        foreach (var flag in flagIds.Count == 0 ? [] : await write.Database.Flags.Where(f => flagIds.Contains(f.Id)).ToListAsync(cancellationToken))
        {
            flag.End(FlagEnd.Rejudged, act.AtUtc, personId: act.PersonId, reason: act.Reason);
        }

        foreach (var task in taskIds.Count == 0 ? [] : await write.Database.CareTasks.Where(t => taskIds.Contains(t.Id)).ToListAsync(cancellationToken))
        {
            task.End(TaskState.Withdrawn, act.AtUtc, act.PersonId);
        }
    }

    // Of two readings of one moment the one that was stored later speaks, as it does for the standing.
    private async Task<IReadOnlyList<ReadingFacts>> LatestAsync(Charge charge, StandingFacts facts, CancellationToken cancellationToken)
    {
        var times = facts.Latest.Values.Select(l => l.TakenAt).Distinct().ToList();
        var readings = await write.Database.Readings.AsNoTracking().Include(r => r.Measurements)
            .Where(r => r.ChargeId == charge.Id && times.Contains(r.TakenAtUtc) && !write.Database.Readings.Any(later => later.SupersedesId == r.Id))
            .OrderByDescending(r => r.TakenAtUtc).ThenByDescending(r => r.StoredAtUtc).ThenByDescending(r => r.Id)
            .ToListAsync(cancellationToken);
        var seen = new HashSet<(DateTime, string)>();
        var latest = new List<ReadingFacts>();
        foreach (var reading in readings)
        {
            var speaks = reading.Measurements.Where(m => !seen.Contains((reading.TakenAtUtc, m.Parameter))).ToList();
            seen.UnionWith(speaks.Select(m => (reading.TakenAtUtc, m.Parameter)));
            latest.Add(new(reading.Id, reading.TakenAtUtc, [.. speaks.Select(m => new MeasurementFacts(m.Parameter, m.Method, (decimal)m.Value, (decimal)m.Uncertainty))]));
        }

        latest.Reverse();
        return latest;
    }
}
