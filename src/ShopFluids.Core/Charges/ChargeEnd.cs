using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Charges;

/// <summary>The fluid that is drained at the end of a charge.</summary>
/// <param name="Found">What was found; it goes to the draining that the plan or a flag asked for.</param>
/// <param name="CleanOutId">The clean-out that ends with it.</param>
internal sealed record Drained(Guid RemovalId, DateTime AtUtc, decimal Litres, WorkFind? Found = null, Guid? CleanOutId = null);

/// <summary>What the end of a charge brings with it, within a write: its flags end, draining that was asked for is done, corrective work goes.</summary>
internal sealed class ChargeEnd(ShopWrite write, ShopSetup setup, ShopClock clock)
{
    private ShopFluidsDbContext Db => write.Database;

    /// <summary>A charge cannot have ended before this.</summary>
    public static async Task<DateTime> LatestEntryAsync(ShopFluidsDbContext db, Charge charge, CancellationToken cancellationToken)
    {
        DateTime?[] entries =
        [
            charge.FilledAtUtc,
            await db.Readings.Where(r => r.ChargeId == charge.Id).MaxAsync(r => (DateTime?)r.TakenAtUtc, cancellationToken),
            await db.Additions.Where(a => a.ChargeId == charge.Id).MaxAsync(a => (DateTime?)a.AddedAtUtc, cancellationToken),
            await db.Removals.Where(r => r.ChargeId == charge.Id).MaxAsync(r => (DateTime?)r.RemovedAtUtc, cancellationToken),
            await StandingDoses.Of(db).Where(d => d.ChargeId == charge.Id).MaxAsync(d => (DateTime?)d.GivenAtUtc, cancellationToken),
        ];
        return entries.OfType<DateTime>().Max();
    }

    public async Task EndAsync(Sump sump, Charge charge, Drained drained, Actor actor, CancellationToken cancellationToken)
    {
        var now = clock.UtcNow;
        charge.Drain(drained.AtUtc);
        Db.Add(new Removal(drained.RemovalId, charge.Id, drained.AtUtc, drained.Litres, RemovalReasons.Drain, actor.PersonId ?? Guid.Empty));
        foreach (var flag in await Db.Flags.Where(f => f.SumpId == sump.Id && f.EndedAtUtc == null).ToListAsync(cancellationToken))
        {
            flag.End(FlagEnd.ChargeEnded, now);
        }

        // A clean-out of a charge that was drained in another way has nothing left to drain.
        foreach (var cleanOut in await Db.CleanOuts.Where(c => c.ChargeId == charge.Id && c.EndedAtUtc == null && c.Id != drained.CleanOutId).ToListAsync(cancellationToken))
        {
            cleanOut.BreakOff(now, actor.PersonId, "");
        }

        // What was dipped into it can still be looked at, but tells nothing of what is in the sump then.
        foreach (var slide in await Db.Slides.Where(s => s.ChargeId == charge.Id && s.EndedAtUtc == null).ToListAsync(cancellationToken))
        {
            slide.Discard(now, actor.PersonId, "");
        }

        await EndWorkAsync(sump, drained, actor, now, cancellationToken);
        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
    }

    private async Task EndWorkAsync(Sump sump, Drained drained, Actor actor, DateTime now, CancellationToken cancellationToken)
    {
        var open = await Db.CareTasks.Where(t => t.SumpId == sump.Id && t.State == TaskState.Open).ToListAsync(cancellationToken);
        var work = DrainedWork.Of(setup, sump.Id, open, drained.AtUtc);
        work.End(now, actor.PersonId);

        // Said once, at the task that was due first: what is done with it is the same work.
        if (drained.Found is { } found)
        {
            work.Done.MinBy(t => (t.DueAtUtc, t.Id))?.Note(found);
        }

        await write.FlushAsync(cancellationToken);
        var planner = new CarePlanner(Db, setup, clock);
        foreach (var task in work.Done.Concat(work.BeginAnew))
        {
            await planner.PlanAfterAsync(task, cancellationToken, drained.AtUtc, drained.Found?.Value);
        }
    }
}
