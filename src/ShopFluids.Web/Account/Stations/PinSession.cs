using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.StaticAssets;
using ShopFluids.Core.Machines;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Web.Api.Access;

namespace ShopFluids.Web.Account.Stations;

/// <summary>
/// A person at a station: a sign-in of its own kind beside that with a password. It has the rights of an operator and no others, ends when
/// nobody touches the tablet, and counts only with the station's cookie beside it and while it is the station's latest.
/// </summary>
internal static class PinSession
{
    public const string Scheme = "Pin";
    public const string CookieName = "shopfluids-pin";

    /// <summary>Sent by our script along with what it does by itself, when somebody has touched the tablet meanwhile.</summary>
    public const string ActiveHeader = "X-ShopFluids-Active";

    private const string StationId = "shopfluids:station";
    private const string StationName = "shopfluids:station-name";
    private const string SessionId = "shopfluids:session";

    // A page fetches much at once: one fresh cookie is enough for it.
    private static readonly TimeSpan RenewedEvery = TimeSpan.FromSeconds(10);

    /// <summary>The station at which a PIN was typed; null for every other sign-in.</summary>
    public static ActorStation? AtStation(this ClaimsPrincipal user) =>
        Guid.TryParse(user.FindFirstValue(StationId), out var id) ? new ActorStation(id, user.FindFirstValue(StationName) ?? "") : null;

    public static void Configure(CookieAuthenticationOptions options)
    {
        options.Cookie.Name = CookieName;
        options.Cookie.HttpOnly = true;
        options.Cookie.SameSite = SameSiteMode.Lax;
        options.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        options.ExpireTimeSpan = TimeSpan.FromMinutes(Site.UsualLockMinutes);
        options.SlidingExpiration = true;
        options.LoginPath = SignInEndpoints.Path;
        options.AccessDeniedPath = SignInEndpoints.NotAllowedPath;
        options.ReturnUrlParameter = SignInEndpoints.ReturnField;
        options.Events.OnRedirectToLogin = ApiRefusals.SignInOrRefuse;
        options.Events.OnRedirectToAccessDenied = ApiRefusals.DenyOrRefuse;
        options.Events.OnValidatePrincipal = CheckAsync;
        options.Events.OnCheckSlidingExpiration = context =>
        {
            context.ShouldRenew = context.ElapsedTime >= RenewedEvery && IsOfAPerson(context.HttpContext);
            return Task.CompletedTask;
        };
    }

    /// <summary>Lets the person in and sends every other sign-in of this browser away.</summary>
    public static async Task<ClaimsPrincipal> BeginAsync(HttpContext http, StationHere station, RightPin person)
    {
        var principal = PrincipalOf(station, person);
        var setup = await http.RequestServices.GetRequiredService<SetupCache>().CurrentAsync(http.RequestAborted);
        var now = http.RequestServices.GetRequiredService<TimeProvider>().GetUtcNow();
        await http.SignOutAsync(IdentityConstants.ApplicationScheme);
        await http.SignInAsync(Scheme, principal, new AuthenticationProperties
        {
            IssuedUtc = now,
            ExpiresUtc = now.AddMinutes(setup.Site?.LockMinutes ?? Site.UsualLockMinutes),
        });
        StationCookie.Renew(http, person.PersonId);
        return principal;
    }

    /// <summary>Whatever role the person has with a password, with a PIN it is the operator's; the page looks as the station does.</summary>
    private static ClaimsPrincipal PrincipalOf(StationHere station, RightPin person) => new(new ClaimsIdentity(
        [
            new Claim(ClaimTypes.NameIdentifier, person.PersonId.ToString("D")),
            new Claim(ClaimTypes.Name, person.SignInName),
            .. PersonClaims.Of(person.DisplayName, person.Units, station.Theme),
            new Claim(ClaimTypes.Role, Roles.Operator),
            new Claim(new ClaimsIdentityOptions().SecurityStampClaimType, person.Stamp),
            new Claim(StationId, station.Id.ToString("D")),
            new Claim(StationName, station.Name),
            new Claim(SessionId, person.SessionId),
        ],
        Scheme));

    // At every request, not each minute: a revoked station and a locked tablet are shut at once.
    private static async Task CheckAsync(CookieValidatePrincipalContext context)
    {
        var http = context.HttpContext;
        if (IsFile(http) || context.Principal is not { } user)
        {
            return;
        }

        var station = await http.StationAsync();
        var isOfStation = station?.SessionId is { } session && user.AtStation()?.Id == station.Id && user.FindFirstValue(SessionId) == session;
        if (!isOfStation || !await http.RequestServices.GetRequiredService<SignInCheck>().StillCountsAsync(user, http.RequestAborted))
        {
            context.RejectPrincipal();
        }
    }

    // What our script does by itself keeps no tablet open.
    private static bool IsOfAPerson(HttpContext http) =>
        !IsFile(http) && (!http.Request.Path.StartsWithSegments(StationEndpoints.ContactPath, StringComparison.OrdinalIgnoreCase) || http.Request.Headers.ContainsKey(ActiveHeader));

    private static bool IsFile(HttpContext http) => http.GetEndpoint()?.Metadata.GetMetadata<StaticAssetDescriptor>() is not null;
}
