using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Fluids;

/// <summary>A lot as it is offered to whoever notes an addition.</summary>
public sealed record LotChoice(Guid Id, string Number, DateOnly ExpiresOn, decimal RemainingLitres, bool IsExpired, bool IsQuarantined);

/// <summary>The lots that concentrate can be drawn from.</summary>
public static class LotChoices
{
    /// <summary>The lot to draw from: of those that may be used and hold enough, the first to expire.</summary>
    public static LotChoice? For(this IReadOnlyList<LotChoice> lots, double concentrateLitres)
    {
        ArgumentNullException.ThrowIfNull(lots);
        return lots.FirstOrDefault(l => !l.IsExpired && !l.IsQuarantined && (double)l.RemainingLitres >= concentrateLitres);
    }

    /// <summary>Lots of a fluid that hold anything, first to expire first.</summary>
    internal static async Task<List<LotChoice>> OfFluidAsync(ShopFluidsDbContext db, Guid fluidId, DateOnly today, CancellationToken cancellationToken) =>
        await db.FluidLots.AsNoTracking()
            .Where(l => l.FluidId == fluidId && l.RemainingLitres > 0)
            .OrderBy(l => l.ExpiresOn).ThenBy(l => l.ReceivedOn).ThenBy(l => l.NumberKey)
            .Select(l => new LotChoice(l.Id, l.Number, l.ExpiresOn, l.RemainingLitres, l.ExpiresOn < today, l.IsQuarantined))
            .ToListAsync(cancellationToken);
}
