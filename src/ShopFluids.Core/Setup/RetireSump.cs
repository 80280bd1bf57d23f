using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Setup;

/// <summary>Takes an empty sump out of use: its history stays, its open work goes, nothing more can be recorded on it.</summary>
public sealed record RetireSump(string SumpTag);

public sealed class RetireSumpHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(RetireSump command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.FindSump(command.SumpTag) is not { } known)
        {
            return new SumpNotFound(command.SumpTag);
        }

        if (setup.OpenCharge(known.Id) is not null)
        {
            return new ChargeStillOpen(known.Tag);
        }

        var sump = await db.Sumps.SingleAsync(s => s.Id == known.Id, cancellationToken);
        if (!sump.IsRetired)
        {
            var now = clock.UtcNow;
            sump.Retire();
            foreach (var task in await db.CareTasks.Where(t => t.SumpId == sump.Id && t.State == TaskState.Open).ToListAsync(cancellationToken))
            {
                task.End(TaskState.Withdrawn, now, actor.PersonId);
            }

            await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
            await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, now, sump.Tag), cancellationToken);
        }

        return new Saved(sump.Id);
    }
}
