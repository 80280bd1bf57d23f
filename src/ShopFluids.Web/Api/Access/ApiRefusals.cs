using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Identity;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Account.Stations;

namespace ShopFluids.Web.Api.Access;

/// <summary>Says no: to a program with a problem document, to a person with a page.</summary>
internal static class ApiRefusals
{
    public const string ApiPath = "/api";

    /// <summary>A page of another site cannot send this header along with a person's cookie.</summary>
    public const string OwnHeader = "X-ShopFluids";

    public static bool IsApi(HttpRequest request) => request.Path.StartsWithSegments(ApiPath, StringComparison.OrdinalIgnoreCase);

    public static Task SignInOrRefuse(RedirectContext<CookieAuthenticationOptions> context)
    {
        if (IsApi(context.Request))
        {
            return NotSignedInAsync(context.HttpContext);
        }

        // On a shared tablet people have a tile and a PIN; that page sends on whoever has neither.
        var request = context.Request;
        context.Response.Redirect(StationCookie.SaysItIsAStation(request)
            ? request.PathBase + StationEndpoints.Path + QueryString.Create(SignInEndpoints.ReturnField, request.Path + request.QueryString)
            : context.RedirectUri);
        return Task.CompletedTask;
    }

    public static Task DenyOrRefuse(RedirectContext<CookieAuthenticationOptions> context)
    {
        if (IsApi(context.Request))
        {
            return NotAllowedAsync(context.HttpContext);
        }

        context.Response.Redirect(context.RedirectUri);
        return Task.CompletedTask;
    }

    public static Task NotSignedInAsync(HttpContext http) =>
        Problem(StatusCodes.Status401Unauthorized, Texts.Api_NotSignedIn).ExecuteAsync(http);

    public static Task NotAllowedAsync(HttpContext http) =>
        Problem(StatusCodes.Status403Forbidden, Texts.Api_NotAllowed).ExecuteAsync(http);

    /// <summary>The API has no forms, hence no form token: a cookie counts only with our own header.</summary>
    public static async ValueTask<object?> RequireOwnHeader(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        var http = context.HttpContext;
        return http.User.Identity?.AuthenticationType is { } type && (type == PinSession.Scheme || type == IdentityConstants.ApplicationScheme) && !http.Request.Headers.ContainsKey(OwnHeader)
            ? Problem(StatusCodes.Status403Forbidden, Texts.Api_OwnHeaderMissing)
            : await next(context);
    }

    private static ProblemHttpResult Problem(int status, string title) => TypedResults.Problem(statusCode: status, title: title);
}
