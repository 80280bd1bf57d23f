using System.Security.Claims;
using ShopFluids.Core.People;
using ShopFluids.Web.Account.Stations;

namespace ShopFluids.Web.Account;

internal static class AccountEndpoints
{
    public static IEndpointRouteBuilder MapAccount(this IEndpointRouteBuilder app)
    {
        app.MapSignIn();
        app.MapFirstRun();
        app.MapOwnAccount();
        app.MapStations();
        app.MapGet("/", (ClaimsPrincipal user) => Results.LocalRedirect("~" + StartOf(user))).RequireAuthorization(Policies.CanRead).WithMetadata(new AtStation());
        return app;
    }

    /// <summary>Who takes readings starts on the round; who also supervises, or only reads, starts on the board.</summary>
    private static string StartOf(ClaimsPrincipal user) =>
        user.IsInRole(Roles.Operator) && !user.IsInRole(Roles.Supervisor) ? "/round" : "/board";
}
