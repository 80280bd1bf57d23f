using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.Board;
using ShopFluids.Core.Displays;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Account.Stations;
using ShopFluids.Web.Shop;

namespace ShopFluids.Web.Pages.Wall;

/// <summary>The board for a screen on the wall: to whoever is signed in, and to displays that a supervisor has given a link.</summary>
internal static class WallEndpoints
{
    public const string Path = "/board/wall";
    public const string OpenPath = Path + "/open";
    public const string SecretField = "display";

    public static IServiceCollection AddWall(this IServiceCollection services) => services.AddSingleton<WallQuery>();

    // Open to all, because a screen has nobody who could sign in; each asks for itself who looks.
    public static void MapWall(this IEndpointRouteBuilder endpoints)
    {
        endpoints.MapGet(Path, ShowAsync).AllowAnonymous();
        endpoints.MapGet(OpenPath, OpenAsync).AllowAnonymous();
        endpoints.MapGet(Path + "/turn/{turn:int:min(0)}", TurnAsync).AllowAnonymous();
    }

    private static async Task<IResult> OpenAsync(HttpContext http, DisplaysQuery displays)
    {
        var secret = http.Request.Query[SecretField].ToString();
        if (secret.Length is 0 or > DisplayCookie.LongestSecret || await displays.OfSecretAsync(secret, http.RequestAborted) is null)
        {
            return Refused(http);
        }

        DisplayCookie.Write(http, secret);
        return SeeOther.At(http, http.Request.PathBase + Path);
    }

    private static async Task<IResult> ShowAsync(HttpContext http, int? turn, WallQuery query) =>
        await LookerAsync(http) is { } looker ? new RazorComponentResult<WallDocument>(new { View = await ViewAsync(http, looker, turn ?? 0, query) })
        : DisplayCookie.IsThere(http.Request) ? Refused(http)
        : TypedResults.Challenge();

    // What a display had shown must go when its link is revoked: the answer is told apart from a server that is out of reach.
    private static async Task<IResult> TurnAsync(HttpContext http, int turn, WallQuery query) =>
        await LookerAsync(http) is { } looker ? new RazorComponentResult<WallScreen>(new { View = await ViewAsync(http, looker, turn, query) }) : TypedResults.StatusCode(StatusCodes.Status403Forbidden);

    private static async Task<WallLooker?> LookerAsync(HttpContext http)
    {
        if (await DisplayCookie.DisplayAsync(http) is { } display)
        {
            DisplayCookie.Renew(http);
            return new(display.Theme, display.AreaId);
        }

        var authorization = http.RequestServices.GetRequiredService<IAuthorizationService>();
        var mayRead = (await authorization.AuthorizeAsync(http.User, null, Policies.CanRead)).Succeeded && http.User.AtStation() is null;
        return mayRead ? new(http.User.ChosenTheme(), null) : null;
    }

    private static async Task<WallView> ViewAsync(HttpContext http, WallLooker looker, int turn, WallQuery query)
    {
        var wall = await query.RunAsync(looker.AreaId, http.RequestAborted);
        var format = wall.Board.Setup.FormatFor();
        return new(wall, turn % wall.Turns.Count, looker.AreaId, looker.Theme, new Sentences(format, wall.Board.Setup));
    }

    private static RazorComponentResult<WallRefused> Refused(HttpContext http)
    {
        DisplayCookie.Drop(http);
        return new(new { }) { StatusCode = StatusCodes.Status403Forbidden };
    }

    private sealed record WallLooker(string Theme, Guid? AreaId);
}
