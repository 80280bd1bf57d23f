using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.People.Stations;

/// <summary>Makes a station and the code that one tablet may take once.</summary>
/// <param name="Name">1 to 60 characters; one station in use of a name at a time.</param>
/// <param name="Place">Up to 120 characters, may be empty.</param>
/// <param name="Theme">light, dark or shop.</param>
public sealed record AddStation(Guid Id, string Name, string Place, string Theme);

/// <summary>A fresh code for a station: for another tablet, or for one that has lost its cookie. The present tablet goes on until the code is used.</summary>
public sealed record OfferStation(Guid Id);

/// <summary>Changes what a station is called, where it is and how its pages look.</summary>
public sealed record ChangeStation(Guid Id, string Name, string Place, string Theme);

/// <summary>Sends the tablet away: from its next request on it is no station.</summary>
public sealed record RevokeStation(Guid Id);

/// <param name="Code">Shown once; only its hash is kept. Empty where none was made.</param>
public sealed record OfferedStation(Guid Id, string Name, string Code, DateTime UntilUtc);

/// <summary>The supervisor's part: each change is recorded, without codes and secrets.</summary>
public sealed class SetUpStationsHandler(ShopDatabase shop, ShopClock clock)
{
    public async Task<Result<OfferedStation>> HandleAsync(AddStation command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        var (name, place) = (command.Name.Trim(), command.Place.Trim());
        var errors = StationRules.Check(name, place, command.Theme);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await shop.WriteAsync(cancellationToken);
        if (await IsTakenAsync(write.Database, name, command.Id, cancellationToken))
        {
            return new FieldErrors([new FieldError("name", FieldProblem.NotUnique)]);
        }

        var station = await write.Database.Stations.FindAsync([command.Id], cancellationToken);
        if (station is { RevokedAtUtc: not null })
        {
            return new StationNotFound();
        }

        var key = await write.Database.StationKeys.FindAsync([command.Id], cancellationToken);
        if (station is null)
        {
            write.Database.Add(station = new Station(command.Id, name, place, command.Theme, clock.UtcNow));
        }

        if (key is null)
        {
            write.Database.Add(key = new StationKey(command.Id));
        }

        return await OfferAsync(write, station, key, new Act(ActCodes.StationMade, actor, clock.UtcNow, name), cancellationToken);
    }

    public async Task<Result<OfferedStation>> HandleAsync(OfferStation command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await shop.WriteAsync(cancellationToken);
        if (await FindAsync(write.Database, command.Id, cancellationToken) is not { } station)
        {
            return new StationNotFound();
        }

        var key = await write.Database.StationKeys.SingleAsync(k => k.StationId == command.Id, cancellationToken);
        return await OfferAsync(write, station, key, new Act(ActCodes.StationChanged, actor, clock.UtcNow, station.Name), cancellationToken);
    }

    public async Task<Result<OfferedStation>> HandleAsync(ChangeStation command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        var (name, place) = (command.Name.Trim(), command.Place.Trim());
        var errors = StationRules.Check(name, place, command.Theme);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await shop.WriteAsync(cancellationToken);
        if (await FindAsync(write.Database, command.Id, cancellationToken) is not { } station)
        {
            return new StationNotFound();
        }

        if (await IsTakenAsync(write.Database, name, station.Id, cancellationToken))
        {
            return new FieldErrors([new FieldError("name", FieldProblem.NotUnique)]);
        }

        station.Change(name, place, command.Theme);
        await write.CommitAsync(new Act(ActCodes.StationChanged, actor, clock.UtcNow, name), cancellationToken);
        return new OfferedStation(station.Id, name, "", clock.UtcNow);
    }

    public async Task<Result<OfferedStation>> HandleAsync(RevokeStation command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await shop.WriteAsync(cancellationToken);
        if (await FindAsync(write.Database, command.Id, cancellationToken) is not { } station)
        {
            return new StationNotFound();
        }

        station.Revoke(clock.UtcNow);
        write.Database.RemoveRange(await write.Database.StationKeys.Where(k => k.StationId == station.Id).ToListAsync(cancellationToken));
        await write.CommitAsync(new Act(ActCodes.StationRevoked, actor, clock.UtcNow, station.Name), cancellationToken);
        return new OfferedStation(station.Id, station.Name, "", clock.UtcNow);
    }

    private async Task<Result<OfferedStation>> OfferAsync(ShopWrite write, Station station, StationKey key, Act act, CancellationToken cancellationToken)
    {
        var code = StationRules.NewCode();
        var until = clock.UtcNow + StationRules.CodeHolds;
        key.Offer(StationRules.HashOfCode(code), until, act.Actor);
        await write.CommitAsync(act, cancellationToken);
        return new OfferedStation(station.Id, station.Name, code, until);
    }

    private static Task<Station?> FindAsync(ShopFluidsDbContext database, Guid id, CancellationToken cancellationToken) =>
        database.Stations.SingleOrDefaultAsync(s => s.Id == id && s.RevokedAtUtc == null, cancellationToken);

    private static Task<bool> IsTakenAsync(ShopFluidsDbContext database, string name, Guid except, CancellationToken cancellationToken) =>
        database.Stations.AnyAsync(s => s.Name == name && s.RevokedAtUtc == null && s.Id != except, cancellationToken);
}
