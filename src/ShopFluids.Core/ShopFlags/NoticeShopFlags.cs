using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.ShopFlags;

/// <summary>
/// Raises and ends what is found of lots, stocks and instruments. Safe on any number of instances and after any downtime: the writers' lock
/// makes them take turns, and what is there already is not raised again.
/// </summary>
public sealed class NoticeShopFlagsHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    /// <returns>How many flags were raised.</returns>
    public async Task<int> HandleAsync(CancellationToken cancellationToken)
    {
        // A look without the lock first: most minutes have no news, and a look must not make writers wait.
        await using (var db = await database.ReadAsync(cancellationToken))
        {
            if ((await ShopFindings.ChangesAsync(db, await setups.CurrentAsync(db, cancellationToken), clock.UtcNow, cancellationToken)).IsEmpty)
            {
                return 0;
            }
        }

        await using var write = await database.WriteAsync(cancellationToken);
        var raised = await NoticeAsync(write, await setups.ForAsync(write, cancellationToken), clock, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.ShopNoticed, Actor.Program, clock.UtcNow, ""), cancellationToken);
        news.Publish(Guid.Empty);
        return raised;
    }

    /// <summary>The same within a write that changed a lot or an instrument, after its changes were sent.</summary>
    internal static async Task<int> NoticeAsync(ShopWrite write, ShopSetup setup, ShopClock clock, CancellationToken cancellationToken)
    {
        var (db, now) = (write.Database, clock.UtcNow);
        var changes = await ShopFindings.ChangesAsync(db, setup, now, cancellationToken);
        if (changes.Gone.Count > 0)
        {
            foreach (var flag in await db.ShopFlags.Where(f => changes.Gone.Contains(f.Id)).ToListAsync(cancellationToken))
            {
                flag.GoAway(now);
            }
        }

        db.AddRange(changes.New.Select(f => new ShopFlag(clock.NewId(), f, now)));
        return changes.New.Count;
    }
}
