using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Setup;

/// <summary>Changes what is known of a water, such as after a new analysis. Readings keep the zero that was taken off them.</summary>
/// <param name="SeenVersion">The version that the person saw, so that two people do not overwrite each other.</param>
public sealed record ChangeWaterSource(Guid Id, WaterData Data, long SeenVersion);

/// <summary>There is no such water.</summary>
public sealed record WaterNotFound : Error;

public sealed class ChangeWaterSourceHandler(ShopDatabase database, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(ChangeWaterSource command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        if (await write.Database.WaterSources.FirstOrDefaultAsync(w => w.Id == command.Id, cancellationToken) is not { } water)
        {
            return new WaterNotFound();
        }

        var data = command.Data;
        if (WaterChecks.Faults(data) is { Count: > 0 } faults)
        {
            return new FieldErrors(faults);
        }

        if (water.Version != command.SeenVersion)
        {
            return new ChangedMeanwhile(water.Version);
        }

        water.Change(data.Name.Trim(), data.ZeroBrix, data.HardnessMgPerLitre, data.NitrateMgPerLitre, data.NitriteMgPerLitre);
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, water.Name), cancellationToken);
        return new Saved(water.Id);
    }
}
