using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Readings;

/// <summary>Takes back what a reading led to before another supersedes it.</summary>
internal sealed class ReadingCorrection(ShopFluidsDbContext db, Sump sump)
{
    public async Task<Error?> PrepareAsync(Guid supersededId, Charge charge, DateTime nowUtc, CancellationToken cancellationToken)
    {
        if (!await db.Readings.AnyAsync(r => r.Id == supersededId && r.SumpId == sump.Id && r.ChargeId == charge.Id, cancellationToken))
        {
            return new ReadingNotFound(supersededId);
        }

        if (await db.Readings.AnyAsync(r => r.SupersedesId == supersededId, cancellationToken))
        {
            return new AlreadySuperseded(supersededId);
        }

        foreach (var flag in await db.Flags.Where(f => f.ReadingId == supersededId && f.EndedAtUtc == null).ToListAsync(cancellationToken))
        {
            flag.End(FlagEnd.Superseded, nowUtc);
        }

        // Work of the plan stays: the visit took place. Work that only a withdrawn finding asked for goes.
        foreach (var task in await db.CareTasks.Where(t => t.ReadingId == supersededId && t.State == TaskState.Open && t.StepId == null).ToListAsync(cancellationToken))
        {
            task.End(TaskState.Withdrawn, nowUtc, null);
        }

        return null;
    }
}
