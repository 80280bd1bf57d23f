using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;

namespace ShopFluids.Core.Doses;

/// <summary>The work that a dose does, within a write.</summary>
internal static class DoseWork
{
    /// <summary>What asked for a dose has got it; whether it was enough, a reading must show.</summary>
    public static async Task EndAsync(ShopWrite write, ShopSetup setup, ShopClock clock, Sump sump, Dose dose, Actor actor, CancellationToken cancellationToken)
    {
        var db = write.Database;
        var open = await db.CareTasks.Where(t => t.SumpId == sump.Id && t.Kind == TaskKind.Dose && t.State == TaskState.Open).ToListAsync(cancellationToken);
        var done = open.FindAll(t => DoneWork.ByDose(setup, t, dose.GivenAtUtc));
        foreach (var task in done)
        {
            task.EndByDose(dose.Id, clock.UtcNow, actor.PersonId);
        }

        await write.FlushAsync(cancellationToken);
        var planner = new CarePlanner(db, setup, clock);
        foreach (var task in done)
        {
            await planner.PlanAfterAsync(task, cancellationToken, dose.GivenAtUtc);
        }
    }

    /// <summary>
    /// The dose never was: the next of its step is due when the work that it seemed to do was, unless another dose does that, or it was done or
    /// passed over since. What does not recur is asked for anew while its charge is in the sump.
    /// </summary>
    public static async Task AskAgainAsync(ShopFluidsDbContext db, ShopSetup setup, ShopClock clock, Dose dose, CancellationToken cancellationToken)
    {
        var isInSump = setup.OpenCharge(dose.SumpId)?.Id == dose.ChargeId;
        var others = await StandingDoses.Of(db).AsNoTracking().Where(d => d.ChargeId == dose.ChargeId && d.Id != dose.Id).ToListAsync(cancellationToken);
        var standing = others.Select(d => d.Id).ToHashSet();
        var struck = (await db.Doses.AsNoTracking().Where(d => d.ChargeId == dose.ChargeId).Select(d => d.Id).ToListAsync(cancellationToken)).Where(id => !standing.Contains(id)).ToHashSet();

        // Also what a dose struck out before had done: another one covered it then, and may be the one that goes now. Of one piece of work that
        // several seemed to do the first is asked for again.
        var undone = await db.CareTasks.AsNoTracking().Where(t => t.EndedByDoseId != null && struck.Contains(t.EndedByDoseId ?? Guid.Empty)).ToListAsync(cancellationToken);
        foreach (var done in undone.OrderBy(t => t.DueAtUtc).DistinctBy(t => (t.Kind, t.Cause)))
        {
            if (others.Exists(other => DoneWork.ByDose(setup, done, other.GivenAtUtc)))
            {
                continue;
            }

            var same = await db.CareTasks.Where(t => t.SumpId == done.SumpId && t.Kind == done.Kind && t.Cause == done.Cause && t.Id != done.Id).ToListAsync(cancellationToken);
            if (same.Exists(t => IsDoneSince(t, done, struck)))
            {
                continue;
            }

            if (same.Find(t => t.State == TaskState.Open) is { } next)
            {
                if (isInSump && next.DueAtUtc > done.DueAtUtc)
                {
                    next.Move(done.DueAtUtc);
                }
            }
            else if (isInSump && setup.StepsOf(done.SumpId).Any(s => s.Id == done.StepId))
            {
                db.Add(new CareTask(clock.NewId(), done.SumpId, done.Kind, done.Cause, done.StepId, done.DueAtUtc, clock.UtcNow, done.ReadingId, null));
            }
        }
    }

    // Done by something else than a dose that never was, passed over, or given another day.
    private static bool IsDoneSince(CareTask task, CareTask done, HashSet<Guid> struck) =>
        task.EndedAtUtc >= done.EndedAtUtc
        && (task.State == TaskState.Skipped || task.IsRedated || (task.State == TaskState.Done && !(task.EndedByDoseId is { } by && struck.Contains(by))));
}
