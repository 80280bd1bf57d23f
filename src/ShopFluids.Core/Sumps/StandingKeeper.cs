using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Sumps;

/// <summary>Brings a standing up to date after changes other than a plain reading.</summary>
internal static class StandingKeeper
{
    /// <summary>Sends the changes so far, rebuilds the standing from history and stores it with the same write.</summary>
    public static async Task RefreshAsync(ShopWrite write, Sump sump, CancellationToken cancellationToken)
    {
        await write.FlushAsync(cancellationToken);
        var standing = await write.Database.Standings.FirstOrDefaultAsync(s => s.SumpId == sump.Id, cancellationToken);
        if (standing is null)
        {
            standing = new Standing(sump.Id);
            write.Database.Add(standing);
        }

        (await StandingRebuild.FromHistoryAsync(write.Database, sump, cancellationToken)).ApplyTo(standing);
    }
}
