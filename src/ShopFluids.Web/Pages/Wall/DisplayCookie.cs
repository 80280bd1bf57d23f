using ShopFluids.Core.Displays;

namespace ShopFluids.Web.Pages.Wall;

/// <summary>What makes a browser a display: a cookie with the secret of its link, which lasts until a supervisor revokes the display. It opens the wall and nothing else.</summary>
internal static class DisplayCookie
{
    public const int LongestSecret = 200;
    private const string Name = "shopfluids-display";

    /// <summary>Browsers keep no cookie longer; each look renews it.</summary>
    private static readonly TimeSpan Lasts = TimeSpan.FromDays(400);

    public static bool IsThere(HttpRequest request) => request.Cookies.ContainsKey(Name);

    /// <returns>Null where the browser is no display, or its link was revoked.</returns>
    public static async Task<DisplayHere?> DisplayAsync(HttpContext http) => http.Request.Cookies[Name] is { Length: > 0 and <= LongestSecret } secret
        ? await http.RequestServices.GetRequiredService<DisplaysQuery>().OfSecretAsync(secret, http.RequestAborted)
        : null;

    public static void Write(HttpContext http, string secret) => http.Response.Cookies.Append(Name, secret, Options(http));

    public static void Renew(HttpContext http)
    {
        if (http.Request.Cookies[Name] is { Length: > 0 } secret)
        {
            Write(http, secret);
        }
    }

    public static void Drop(HttpContext http) => http.Response.Cookies.Delete(Name, Options(http));

    private static CookieOptions Options(HttpContext http) => new()
    {
        HttpOnly = true,
        Secure = http.Request.IsHttps,
        SameSite = SameSiteMode.Lax,
        Path = http.Request.PathBase + WallEndpoints.Path,
        MaxAge = Lasts,
        IsEssential = true,
    };
}
