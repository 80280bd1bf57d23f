using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using Microsoft.Net.Http.Headers;
using ShopFluids.Web.Account.Stations;

namespace ShopFluids.Web.Api.Access;

internal sealed class TokenSchemeOptions : AuthenticationSchemeOptions;

/// <summary>Signs a program in by the bearer token it sends.</summary>
internal sealed class TokenScheme(IOptionsMonitor<TokenSchemeOptions> options, ILoggerFactory logs, UrlEncoder encoder, TokenCache tokens)
    : AuthenticationHandler<TokenSchemeOptions>(options, logs, encoder)
{
    public const string Name = "Token";

    private const string Prefix = "Bearer ";
    private const int LongestToken = 200;

    /// <summary>A request to the API that brings a token is a program's; everything else is a person's, with the cookie of a PIN or of a password.</summary>
    public static string Select(HttpContext http) =>
        ApiRefusals.IsApi(http.Request) && http.Request.Headers.ContainsKey(HeaderNames.Authorization) ? Name
        : http.Request.Cookies.ContainsKey(PinSession.CookieName) ? PinSession.Scheme
        : IdentityConstants.ApplicationScheme;

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        var header = Request.Headers.Authorization.ToString();
        if (!header.StartsWith(Prefix, StringComparison.OrdinalIgnoreCase) || header.Length > LongestToken)
        {
            return AuthenticateResult.NoResult();
        }

        var identity = await tokens.FindAsync(header[Prefix.Length..].Trim(), Context.RequestAborted);
        return identity is null
            ? AuthenticateResult.NoResult()
            : AuthenticateResult.Success(new AuthenticationTicket(new ClaimsPrincipal(identity), Name));
    }

    protected override Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        Response.Headers.WWWAuthenticate = "Bearer";
        return ApiRefusals.NotSignedInAsync(Context);
    }

    protected override Task HandleForbiddenAsync(AuthenticationProperties properties) => ApiRefusals.NotAllowedAsync(Context);
}
