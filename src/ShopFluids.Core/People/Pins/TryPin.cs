using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.People.Pins;

/// <summary>A PIN typed at a station.</summary>
public sealed record TryPin(StationHere Station, Guid PersonId, string Pin);

/// <param name="Stamp">Changes with password, PIN and roles: then the session ends.</param>
/// <param name="SessionId">The one session of the station that counts from now on.</param>
public sealed record RightPin(Guid PersonId, string SignInName, string DisplayName, UnitSystem? Units, string Stamp, string SessionId);

/// <summary>Not the person's PIN, or the person has none.</summary>
/// <param name="NextAtUtc">When the next try counts; now, as long as none has to be waited for.</param>
public sealed record WrongPin(DateTime NextAtUtc) : Error;

/// <summary>Too many wrong tries: this one was not looked at, and does not count.</summary>
public sealed record PinTooSoon(DateTime NextAtUtc) : Error;

public sealed class TryPinHandler(ShopDatabase shop, IPasswordHasher<Person> hasher, ShopClock clock)
{
    public async Task<Result<RightPin>> HandleAsync(TryPin command, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        var reserved = await ReserveAsync(command, cancellationToken);
        var (person, next) = (reserved.Person, reserved.NextAtUtc);
        if (reserved.IsTooSoon)
        {
            return new PinTooSoon(next);
        }

        // Outside the writers' lock, for it is slow on purpose; as slow where there is nothing to compare with.
        if (person?.PinHash is not { } hash)
        {
            hasher.HashPassword(new Person(), command.Pin);
            return new WrongPin(next);
        }

        return hasher.VerifyHashedPassword(person, hash, command.Pin) == PasswordVerificationResult.Failed
            ? new WrongPin(next)
            : await BeginAsync(command, reserved, person, cancellationToken);
    }

    private static (string Subject, BackoffPace Pace)[] SubjectsOf(TryPin command) =>
    [
        (PinBackoff.OfDevice(command.Station.Id), BackoffPace.Device),
        (PinBackoff.OfPersonAtDevice(command.PersonId, command.Station.Id), BackoffPace.PersonAtDevice),
        (PinBackoff.OfPerson(command.PersonId), BackoffPace.Person),
    ];

    private async Task<Reserved> ReserveAsync(TryPin command, CancellationToken cancellationToken)
    {
        await using var write = await shop.WriteAsync(cancellationToken);
        var now = clock.UtcNow;
        var person = await FindAsync(write.Database, command.PersonId, cancellationToken);

        // A made-up person gets no row: the tablet's own count is enough for that.
        var subjects = person is null ? SubjectsOf(command)[..1] : SubjectsOf(command);
        var rows = new List<(PinBackoff Row, BackoffPace Pace)>();
        foreach (var (subject, pace) in subjects)
        {
            var row = await write.Database.PinBackoffs.FindAsync([subject], cancellationToken);
            if (row is null)
            {
                write.Database.Add(row = new PinBackoff(subject, now));
            }

            rows.Add((row, pace));
        }

        var next = rows.Max(r => r.Row.NextAt(r.Pace, now));
        var device = rows[0].Row;
        var before = device.Now;
        var isTooSoon = next > now;
        if (!isTooSoon)
        {
            rows.ForEach(r => r.Row.Count(r.Pace, now));
            next = rows.Max(r => r.Row.NextAtUtc);
        }

        await write.CommitUnrecordedAsync(cancellationToken);
        return new Reserved(person, next, isTooSoon, before, device.Now);
    }

    private async Task<Result<RightPin>> BeginAsync(TryPin command, Reserved reserved, Person person, CancellationToken cancellationToken)
    {
        await using var write = await shop.WriteAsync(cancellationToken);
        foreach (var (subject, pace) in SubjectsOf(command))
        {
            if (await write.Database.PinBackoffs.FindAsync([subject], cancellationToken) is not { } row)
            {
                continue;
            }

            // Whoever knows one PIN must not wash the tablet clean with it between tries for others.
            if (pace == BackoffPace.Device)
            {
                row.TakeBack(reserved.Before, reserved.Counted);
            }
            else
            {
                row.Forget();
            }
        }

        // The tablet may have been sent away meanwhile.
        if (await write.Database.StationKeys.FindAsync([command.Station.Id], cancellationToken) is not { } key)
        {
            return new StationNotFound();
        }

        var session = StationRules.NewSecret();
        key.Begin(session);
        await write.CommitUnrecordedAsync(cancellationToken);
        return new RightPin(person.Id, person.UserName ?? "", person.DisplayName, person.Units, person.SecurityStamp ?? "", session);
    }

    private static Task<Person?> FindAsync(ShopFluidsDbContext database, Guid personId, CancellationToken cancellationToken) =>
        database.Users.AsNoTracking().SingleOrDefaultAsync(
            p => p.Id == personId && (from held in database.UserRoles
                                      join role in database.Roles on held.RoleId equals role.Id
                                      where held.UserId == p.Id && (role.Name == Roles.Operator || role.Name == Roles.Supervisor)
                                      select held).Any(),
            cancellationToken);

    /// <summary>A try that is counted, or came too soon.</summary>
    /// <param name="Before">The tablet's count without it.</param>
    private sealed record Reserved(Person? Person, DateTime NextAtUtc, bool IsTooSoon, PinCount Before, PinCount Counted);
}
