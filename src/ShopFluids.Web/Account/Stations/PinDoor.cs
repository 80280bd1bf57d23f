using System.Globalization;
using System.Security.Claims;
using ShopFluids.Core.Database;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Account.Stations;

/// <param name="User">Who is signed in from now on; null when refused.</param>
/// <param name="Refusal">Why not, in words.</param>
internal sealed record PinAnswer(ClaimsPrincipal? User, string? Refusal);

/// <summary>A PIN tried at the station of the request.</summary>
internal sealed class PinDoor(TryPinHandler handler, ShopClock clock, ILogger<PinDoor> log)
{
    public async Task<PinAnswer> TryAsync(HttpContext http, StationHere station, Guid personId, string pin)
    {
        // A try that was begun is counted, also when the tablet goes out of reach.
        var result = await handler.HandleAsync(new TryPin(station, personId, pin), CancellationToken.None);
        if (result.Value is { } right)
        {
            log.SignedInAtStation(right.PersonId, station.Id);
            return new PinAnswer(await PinSession.BeginAsync(http, station, right), null);
        }

        log.PinRefused(station.Id);
        return new PinAnswer(null, Say(result.Error));
    }

    private string Say(Error? error) => error switch
    {
        WrongPin wrong when wrong.NextAtUtc > clock.UtcNow => string.Format(CultureInfo.CurrentCulture, Texts.Station_WrongPinWait, Wait(wrong.NextAtUtc)),
        WrongPin => Texts.Station_WrongPin,
        PinTooSoon soon => string.Format(CultureInfo.CurrentCulture, Texts.Station_PinTooSoon, Wait(soon.NextAtUtc)),
        StationNotFound => Texts.Station_Ended,
        _ => throw new InvalidOperationException($"{error} has no sentence."),
    };

    private string Wait(DateTime nextUtc)
    {
        var wait = nextUtc - clock.UtcNow;
        return wait > TimeSpan.FromSeconds(90)
            ? string.Format(CultureInfo.CurrentCulture, Texts.Station_WaitMinutes, Math.Ceiling(wait.TotalMinutes))
            : string.Format(CultureInfo.CurrentCulture, Texts.Station_WaitSeconds, Math.Ceiling(Math.Max(1, wait.TotalSeconds)));
    }
}
