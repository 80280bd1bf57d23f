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
        var others = await StandingDoses.Of(db).AsNoTracking().Where(d => d.ChargeId == dose.ChargeId && d.Id != dose.Id).Select(d => d.GivenAtUtc).ToListAsync(cancellationToken);
        foreach (var done in await db.CareTasks.AsNoTracking().Where(t => t.EndedByDoseId == dose.Id).ToListAsync(cancellationToken))
        {
            if (others.Exists(givenAtUtc => DoneWork.ByDose(setup, done, givenAtUtc)))
            {
                continue;
            }

            var same = await db.CareTasks.Where(t => t.SumpId == done.SumpId && t.Kind == done.Kind && t.Cause == done.Cause && t.Id != done.Id).ToListAsync(cancellationToken);
            if (same.Exists(t => t.State is TaskState.Done or TaskState.Skipped && t.EndedAtUtc >= done.EndedAtUtc))
            {
                continue;
            }

            if (same.Find(t => t.State == TaskState.Open) is { } next)
            {
                next.Move(done.DueAtUtc);
            }
            else if (isInSump && setup.StepsOf(done.SumpId).Any(s => s.Id == done.StepId))
            {
                db.Add(new CareTask(clock.NewId(), done.SumpId, done.Kind, done.Cause, done.StepId, done.DueAtUtc, clock.UtcNow, done.ReadingId, null));
            }
        }
    }
}
