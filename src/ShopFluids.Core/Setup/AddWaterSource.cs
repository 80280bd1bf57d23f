using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;
using ShopFluids.Core.Water;

namespace ShopFluids.Core.Setup;

public sealed record AddWaterSource(Guid Id, WaterData Data);

public sealed class AddWaterSourceHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(AddWaterSource command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.Waters.Any(w => w.Id == command.Id))
        {
            return new Saved(command.Id);
        }

        var data = command.Data;
        if (WaterChecks.Faults(data) is { Count: > 0 } faults)
        {
            return new FieldErrors(faults);
        }

        write.Database.Add(new WaterSource(command.Id, data.Name.Trim(), data.ZeroBrix, data.HardnessMgPerLitre, data.NitrateMgPerLitre, data.NitriteMgPerLitre));
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, data.Name.Trim()), cancellationToken);
        return new Saved(command.Id);
    }
}
