using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;

namespace ShopFluids.Core.Sheets;

/// <summary>A sheet names the record entry that it stands on: nothing may have been written between the first and the last line read.</summary>
internal static class RecordStand
{
    private const int MostTries = 3;

    /// <summary>Reads anew where something was written meanwhile; in a shop that never rests, the last try stands.</summary>
    public static async Task<T> ReadAsync<T>(ShopFluidsDbContext db, Func<RecordHead, Task<T>> read, CancellationToken cancellationToken)
    {
        for (var tries = 1; ; tries++)
        {
            var head = await HeadAsync(db, cancellationToken);
            var value = await read(head);
            if (tries == MostTries || (await HeadAsync(db, cancellationToken)).Sequence == head.Sequence)
            {
                return value;
            }
        }
    }

    private static Task<RecordHead> HeadAsync(ShopFluidsDbContext db, CancellationToken cancellationToken) =>
        db.RecordHead.AsNoTracking().SingleAsync(cancellationToken);
}
