using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Setup;

public sealed record AddArea(Guid Id, string Name, int WalkOrder);

public sealed record NoSite : Error;

public sealed class AddAreaHandler(ShopDatabase database, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(AddArea command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        if (AreaChecks.Faults(command.Name, command.WalkOrder) is { Count: > 0 } faults)
        {
            return new FieldErrors(faults);
        }

        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        if (await db.Areas.AnyAsync(a => a.Id == command.Id, cancellationToken))
        {
            return new Saved(command.Id);
        }

        if (await db.Sites.OrderBy(s => s.Id).FirstOrDefaultAsync(cancellationToken) is not { } site)
        {
            return new NoSite();
        }

        db.Add(new Area(command.Id, site.Id, command.Name.Trim(), command.WalkOrder));
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, command.Name.Trim()), cancellationToken);
        return new Saved(command.Id);
    }
}

internal static class AreaChecks
{
    public static List<FieldError> Faults(string name, int walkOrder)
    {
        var errors = new List<FieldError>();
        TextChecks.Check(errors, "name", name, 120);
        SetupFields.Range(errors, "walkOrder", walkOrder, 0, 9999);
        return errors;
    }
}
