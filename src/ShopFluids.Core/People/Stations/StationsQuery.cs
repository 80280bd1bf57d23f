using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.People.Stations;

/// <summary>A station as its tablet presents itself.</summary>
public sealed record StationHere(Guid Id, string Name, string Place, string Theme, string? SessionId);

/// <summary>Someone whose tile stands on the tablets.</summary>
public sealed record StationPerson(Guid Id, string DisplayName, string SignInName);

/// <param name="ClockAhead">How far the tablet's clock is ahead; null where the tablet has told nothing yet.</param>
public sealed record StationRow(
    Guid Id,
    string Name,
    string Place,
    string Theme,
    DateTime? EnrolledAtUtc,
    DateTime? RevokedAtUtc,
    DateTime? CodeUntilUtc,
    DateTime? SeenAtUtc,
    int Unsent,
    DateTime? OldestUnsentAtUtc,
    TimeSpan? ClockAhead);

public sealed class StationsQuery(ShopDatabase shop)
{
    /// <summary>Those in use first, by name.</summary>
    public async Task<IReadOnlyList<StationRow>> AllAsync(CancellationToken cancellationToken)
    {
        await using var database = await shop.ReadAsync(cancellationToken);
        var rows = await (from station in database.Stations
                          join key in database.StationKeys on station.Id equals key.StationId into keys
                          from key in keys.DefaultIfEmpty()
                          join contact in database.StationContacts on station.Id equals contact.StationId into contacts
                          from contact in contacts.DefaultIfEmpty()
                          select new { Station = station, CodeUntilUtc = key == null ? null : key.CodeUntilUtc, Contact = contact }).AsNoTracking().ToListAsync(cancellationToken);
        return [.. rows
            .Select(r => new StationRow(
                r.Station.Id,
                r.Station.Name,
                r.Station.Place,
                r.Station.Theme,
                r.Station.EnrolledAtUtc,
                r.Station.RevokedAtUtc,
                r.CodeUntilUtc,
                r.Contact?.SeenAtUtc,
                r.Contact?.Unsent ?? 0,
                r.Contact?.OldestUnsentAtUtc,
                r.Contact is { } told ? TimeSpan.FromMilliseconds(told.ClockAheadMs) : null))
            .OrderBy(r => r.RevokedAtUtc is not null)
            .ThenBy(r => r.Name, StringComparer.OrdinalIgnoreCase)
            .ThenBy(r => r.Id)];
    }

    /// <returns>Null when no station in use has a tablet with this secret.</returns>
    public async Task<StationHere?> OfSecretAsync(string secret, CancellationToken cancellationToken)
    {
        var hash = StationRules.HashOf(secret);
        await using var database = await shop.ReadAsync(cancellationToken);
        return await (from key in database.StationKeys
                      join station in database.Stations on key.StationId equals station.Id
                      where key.Hash == hash && station.RevokedAtUtc == null
                      select new StationHere(station.Id, station.Name, station.Place, station.Theme, key.SessionId)).SingleOrDefaultAsync(cancellationToken);
    }

    /// <returns>The name of the station that waits for this code; null when none does.</returns>
    public async Task<string?> OfCodeAsync(string code, DateTime nowUtc, CancellationToken cancellationToken)
    {
        var hash = StationRules.HashOfCode(code);
        await using var database = await shop.ReadAsync(cancellationToken);
        return await (from key in database.StationKeys
                      join station in database.Stations on key.StationId equals station.Id
                      where key.CodeHash == hash && key.CodeUntilUtc >= nowUtc
                      select station.Name).SingleOrDefaultAsync(cancellationToken);
    }

    /// <summary>Who has a PIN and may take readings, by name.</summary>
    public async Task<IReadOnlyList<StationPerson>> PeopleAsync(CancellationToken cancellationToken)
    {
        await using var database = await shop.ReadAsync(cancellationToken);
        var people = await (from person in database.Users
                            where person.PinHash != null && (from held in database.UserRoles
                                                             join role in database.Roles on held.RoleId equals role.Id
                                                             where held.UserId == person.Id && (role.Name == Roles.Operator || role.Name == Roles.Supervisor)
                                                             select held).Any()
                            select new StationPerson(person.Id, person.DisplayName, person.UserName ?? "")).ToListAsync(cancellationToken);
        return [.. people.OrderBy(p => p.DisplayName, StringComparer.CurrentCultureIgnoreCase).ThenBy(p => p.SignInName, StringComparer.Ordinal)];
    }
}
