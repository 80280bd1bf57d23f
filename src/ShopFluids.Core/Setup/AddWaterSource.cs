using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;
using ShopFluids.Core.Water;

namespace ShopFluids.Core.Setup;

public sealed record AddWaterSource(Guid Id, string Name, decimal ZeroBrix, decimal? HardnessMgPerLitre, decimal? NitrateMgPerLitre, decimal? NitriteMgPerLitre);

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

        var errors = new List<FieldError>();
        TextChecks.Check(errors, "name", command.Name, 120);
        SetupFields.Range(errors, "zeroBrix", command.ZeroBrix, -1, 5, "Brix");
        SetupFields.Range(errors, "hardness", command.HardnessMgPerLitre ?? 0, 0, 5000, "mg/L");
        SetupFields.Range(errors, "nitrate", command.NitrateMgPerLitre ?? 0, 0, 2000, "mg/L");
        SetupFields.Range(errors, "nitrite", command.NitriteMgPerLitre ?? 0, 0, 1000, "mg/L");
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        write.Database.Add(new WaterSource(command.Id, command.Name.Trim(), command.ZeroBrix, command.HardnessMgPerLitre, command.NitrateMgPerLitre, command.NitriteMgPerLitre));
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, command.Name.Trim()), cancellationToken);
        return new Saved(command.Id);
    }
}
