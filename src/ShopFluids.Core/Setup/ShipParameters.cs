using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Setup;

/// <summary>Gives a new shop its parameters, and an older one those that a newer version ships; changes none that is there.</summary>
public sealed class ShipParametersHandler(ShopDatabase database, ShopClock clock)
{
    public async Task HandleAsync(CancellationToken cancellationToken)
    {
        await using var write = await database.WriteAsync(cancellationToken);
        var known = await write.Database.Parameters.Select(p => p.Code).ToListAsync(cancellationToken);
        var missing = ShippedParameters.All().Where(p => !known.Contains(p.Code, StringComparer.Ordinal)).ToList();
        if (missing.Count > 0)
        {
            write.Database.AddRange(missing);
            await write.CommitAsync(new Act(ActCodes.SetupChanged, Actor.Program, clock.UtcNow, ""), cancellationToken);
        }
    }
}
