using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Setup;

/// <summary>Gives an area another name or another place in the round.</summary>
/// <param name="SeenVersion">The version that the person saw, so that two people do not overwrite each other.</param>
public sealed record ChangeArea(Guid Id, string Name, int WalkOrder, long SeenVersion);

/// <summary>There is no such area.</summary>
public sealed record AreaNotFound : Error;

public sealed class ChangeAreaHandler(ShopDatabase database, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(ChangeArea command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        if (await write.Database.Areas.FirstOrDefaultAsync(a => a.Id == command.Id, cancellationToken) is not { } area)
        {
            return new AreaNotFound();
        }

        if (AreaChecks.Faults(command.Name, command.WalkOrder) is { Count: > 0 } faults)
        {
            return new FieldErrors(faults);
        }

        if (area.Version != command.SeenVersion)
        {
            return new ChangedMeanwhile(area.Version);
        }

        area.Change(command.Name.Trim(), command.WalkOrder);
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, area.Name), cancellationToken);
        return new Saved(area.Id);
    }
}
