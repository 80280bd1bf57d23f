using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Displays;

/// <summary>Makes a display and its link; made again with the same id, it gets a fresh link.</summary>
/// <param name="Name">1 to 60 characters; one display in use of a name at a time.</param>
/// <param name="Theme">light, dark or shop.</param>
/// <param name="AreaId">The only area that it shows; null: all in turn.</param>
public sealed record AddDisplay(Guid Id, string Name, string Theme, Guid? AreaId);

/// <summary>Changes what a display is called and shows; its link stays.</summary>
public sealed record ChangeDisplay(Guid Id, string Name, string Theme, Guid? AreaId);

/// <summary>A fresh link for a display; the one before opens nothing any more.</summary>
public sealed record RenewDisplay(Guid Id);

/// <summary>From its next look on the display shows nothing.</summary>
public sealed record RevokeDisplay(Guid Id);

/// <param name="Secret">Shown once, within a link; only its hash is kept. Empty where none was made.</param>
public sealed record OfferedDisplay(Guid Id, string Name, string Secret);

/// <summary>There is no such display, or it was revoked.</summary>
public sealed record DisplayNotFound : Error;

/// <summary>The supervisor's part: each change is recorded, without secrets.</summary>
public sealed class SetUpDisplaysHandler(ShopDatabase shop, SetupCache setups, ShopClock clock)
{
    public async Task<Result<OfferedDisplay>> HandleAsync(AddDisplay command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        var name = command.Name.Trim();
        await using var write = await shop.WriteAsync(cancellationToken);
        if (await CheckAsync(write, command.Id, name, command.Theme, command.AreaId, cancellationToken) is { } errors)
        {
            return errors;
        }

        var display = await write.Database.Displays.FindAsync([command.Id], cancellationToken);
        if (display is { RevokedAtUtc: not null })
        {
            return new DisplayNotFound();
        }

        var secret = StationRules.NewSecret();
        if (display is null)
        {
            display = new Display(command.Id, name, command.Theme, command.AreaId, clock.UtcNow);
            write.Database.Add(display);
            write.Database.Add(new DisplayKey(command.Id, StationRules.HashOf(secret)));
        }
        else
        {
            await RenewAsync(write.Database, display.Id, secret, cancellationToken);
        }

        await write.CommitAsync(new Act(ActCodes.DisplayMade, actor, clock.UtcNow, display.Name), cancellationToken);
        return new OfferedDisplay(display.Id, display.Name, secret);
    }

    public async Task<Result<OfferedDisplay>> HandleAsync(ChangeDisplay command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        var name = command.Name.Trim();
        await using var write = await shop.WriteAsync(cancellationToken);
        if (await CheckAsync(write, command.Id, name, command.Theme, command.AreaId, cancellationToken) is { } errors)
        {
            return errors;
        }

        if (await FindAsync(write.Database, command.Id, cancellationToken) is not { } display)
        {
            return new DisplayNotFound();
        }

        display.Change(name, command.Theme, command.AreaId);
        await write.CommitAsync(new Act(ActCodes.DisplayChanged, actor, clock.UtcNow, name), cancellationToken);
        return new OfferedDisplay(display.Id, name, "");
    }

    public async Task<Result<OfferedDisplay>> HandleAsync(RenewDisplay command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await shop.WriteAsync(cancellationToken);
        if (await FindAsync(write.Database, command.Id, cancellationToken) is not { } display)
        {
            return new DisplayNotFound();
        }

        // The display's version is raised, so that the record says that there is another link, although not which.
        var secret = StationRules.NewSecret();
        await RenewAsync(write.Database, display.Id, secret, cancellationToken);
        write.Database.Entry(display).State = EntityState.Modified;
        await write.CommitAsync(new Act(ActCodes.DisplayChanged, actor, clock.UtcNow, display.Name), cancellationToken);
        return new OfferedDisplay(display.Id, display.Name, secret);
    }

    public async Task<Result<OfferedDisplay>> HandleAsync(RevokeDisplay command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await shop.WriteAsync(cancellationToken);
        if (await FindAsync(write.Database, command.Id, cancellationToken) is not { } display)
        {
            return new DisplayNotFound();
        }

        display.Revoke(clock.UtcNow);
        write.Database.RemoveRange(await write.Database.DisplayKeys.Where(k => k.DisplayId == display.Id).ToListAsync(cancellationToken));
        await write.CommitAsync(new Act(ActCodes.DisplayRevoked, actor, clock.UtcNow, display.Name), cancellationToken);
        return new OfferedDisplay(display.Id, display.Name, "");
    }

    private async Task<Error?> CheckAsync(ShopWrite write, Guid id, string name, string theme, Guid? areaId, CancellationToken cancellationToken)
    {
        var errors = new List<FieldError>();
        TextChecks.Check(errors, "name", name, StationRules.MaximumNameLength);
        AccountRules.CheckTheme(errors, theme);
        if (areaId is { } area && !(await setups.ForAsync(write, cancellationToken)).Areas.Any(a => a.Id == area))
        {
            errors.Add(new("area", FieldProblem.UnknownChoice));
        }

        if (errors.Count == 0 && await write.Database.Displays.AnyAsync(d => d.Name == name && d.RevokedAtUtc == null && d.Id != id, cancellationToken))
        {
            errors.Add(new("name", FieldProblem.NotUnique, Detail: name));
        }

        return errors.Count > 0 ? new FieldErrors(errors) : null;
    }

    private static async Task RenewAsync(ShopFluidsDbContext database, Guid displayId, string secret, CancellationToken cancellationToken) =>
        (await database.DisplayKeys.SingleAsync(k => k.DisplayId == displayId, cancellationToken)).Renew(StationRules.HashOf(secret));

    private static Task<Display?> FindAsync(ShopFluidsDbContext database, Guid id, CancellationToken cancellationToken) =>
        database.Displays.SingleOrDefaultAsync(d => d.Id == id && d.RevokedAtUtc == null, cancellationToken);
}
