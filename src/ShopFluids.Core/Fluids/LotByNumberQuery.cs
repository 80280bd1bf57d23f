using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;

namespace ShopFluids.Core.Fluids;

/// <summary>Finds a lot by what stands on its label.</summary>
public sealed class LotByNumberQuery(ShopDatabase database, SetupCache setups)
{
    /// <summary>The lot of that number of the fluid that a sump is filled with; null when there is none.</summary>
    public async Task<Guid?> RunAsync(string sumpTag, string number, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(number);
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        if (setup.FindSump(sumpTag) is not { } sump || setup.OpenCharge(sump.Id) is not { } charge)
        {
            return null;
        }

        var key = FluidLot.KeyOf(number);
        return await db.FluidLots.AsNoTracking().Where(l => l.FluidId == charge.FluidId && l.NumberKey == key).Select(l => (Guid?)l.Id).FirstOrDefaultAsync(cancellationToken);
    }
}
