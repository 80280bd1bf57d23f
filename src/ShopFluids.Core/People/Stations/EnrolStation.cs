using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.People.Stations;

/// <summary>Sent by the tablet that becomes a station.</summary>
/// <param name="Code">As it was shown to the supervisor.</param>
public sealed record EnrolStation(string Code);

/// <param name="Secret">For the tablet alone; only its hash is kept.</param>
public sealed record EnrolledStation(Guid Id, string Name, string Secret);

/// <summary>Ends the PIN session of a tablet.</summary>
public sealed record LockStation(Guid Id);

/// <summary>The tablet's part: takes a code once and gives the tablet its secret. A tablet that had the station before is none any more.</summary>
public sealed class EnrolStationHandler(ShopDatabase shop, ShopClock clock)
{
    public async Task<Result<EnrolledStation>> HandleAsync(EnrolStation command, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        var hash = StationRules.HashOfCode(command.Code);
        await using var write = await shop.WriteAsync(cancellationToken);
        var key = await write.Database.StationKeys.SingleOrDefaultAsync(k => k.CodeHash == hash, cancellationToken);
        if (key is null || key.CodeUntilUtc < clock.UtcNow)
        {
            return new StationCodeUnknown();
        }

        var station = await write.Database.Stations.SingleAsync(s => s.Id == key.StationId, cancellationToken);
        var by = new Actor(key.CodeById, "");
        var secret = StationRules.NewSecret();
        key.Take(StationRules.HashOf(secret));
        station.Enrol(clock.UtcNow);
        await write.CommitAsync(new Act(ActCodes.StationEnrolled, by, clock.UtcNow, station.Name), cancellationToken);
        return new EnrolledStation(station.Id, station.Name, secret);
    }

    public async Task HandleAsync(LockStation command, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await shop.WriteAsync(cancellationToken);
        if (await write.Database.StationKeys.FindAsync([command.Id], cancellationToken) is { SessionId: not null } key)
        {
            key.Lock();
            await write.CommitUnrecordedAsync(cancellationToken);
        }
    }
}
