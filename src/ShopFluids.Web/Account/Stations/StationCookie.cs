using ShopFluids.Core.People.Stations;

namespace ShopFluids.Web.Account.Stations;

/// <summary>What makes a browser a station: a cookie with the tablet's secret, which lasts until a supervisor revokes the station.</summary>
internal static class StationCookie
{
    public const string Name = "shopfluids-station";

    /// <summary>Who was let in last: a form that waits for a PIN asks that person, and nobody else.</summary>
    private const string LastName = "shopfluids-last";

    /// <summary>Browsers keep no cookie longer; each PIN renews it.</summary>
    private static readonly TimeSpan Lasts = TimeSpan.FromDays(400);

    private const int LongestSecret = 200;

    /// <returns>The station of this request's browser, asked once for each request; null where there is none, or its tablet was sent away.</returns>
    public static async Task<StationHere?> StationAsync(this HttpContext http)
    {
        if (http.Features.Get<Asked>() is { } asked)
        {
            return asked.Station;
        }

        var station = http.Request.Cookies[Name] is { Length: > 0 and <= LongestSecret } secret
            ? await http.RequestServices.GetRequiredService<StationsQuery>().OfSecretAsync(secret, http.RequestAborted)
            : null;
        http.Features.Set(new Asked(station));
        return station;
    }

    /// <summary>Whether the browser says that it is a station; whether it still is, the database knows.</summary>
    public static bool SaysItIsAStation(HttpRequest request) => request.Cookies.ContainsKey(Name);

    public static void Write(HttpContext http, string secret) => http.Response.Cookies.Append(Name, secret, Options(http));

    public static void Renew(HttpContext http, Guid personId)
    {
        http.Response.Cookies.Append(LastName, personId.ToString("N"), Options(http));
        if (http.Request.Cookies[Name] is { Length: > 0 } secret)
        {
            Write(http, secret);
        }
    }

    public static void Drop(HttpContext http)
    {
        http.Response.Cookies.Delete(Name, Options(http));
        http.Response.Cookies.Delete(LastName, Options(http));
    }

    public static Guid? LastPerson(HttpRequest request) => Guid.TryParse(request.Cookies[LastName], out var id) ? id : null;

    // Lax: a scanned label opens its page on the tablet; a form on another site posts without the cookie.
    private static CookieOptions Options(HttpContext http) => new()
    {
        HttpOnly = true,
        Secure = http.Request.IsHttps,
        SameSite = SameSiteMode.Lax,
        Path = http.Request.PathBase.HasValue ? http.Request.PathBase.Value : "/",
        MaxAge = Lasts,
        IsEssential = true,
    };

    private sealed record Asked(StationHere? Station);
}
