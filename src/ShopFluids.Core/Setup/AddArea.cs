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
        var errors = new List<FieldError>();
        TextChecks.Check(errors, "name", command.Name, 120);
        SetupFields.Range(errors, "walkOrder", command.WalkOrder, 0, 9999);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
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
