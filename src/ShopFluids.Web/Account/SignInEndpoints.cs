using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Identity;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account.Stations;

namespace ShopFluids.Web.Account;

/// <summary>Signing in and out.</summary>
internal static class SignInEndpoints
{
    public const string Path = "/account/sign-in";
    public const string SignOutPath = "/account/sign-out";
    public const string NotAllowedPath = "/account/not-allowed";
    public const string ReturnField = "returnUrl";
    private const string Start = "/";

    public static void MapSignIn(this IEndpointRouteBuilder app)
    {
        app.MapGet(Path, ShowAsync).AllowAnonymous();
        app.MapPost(Path, SignInAsync).AllowAnonymous();
        app.MapPost(SignOutPath, SignOutAsync).AllowAnonymous();
        app.MapGet(NotAllowedPath, () => new RazorComponentResult<NotAllowedPage>()).AllowAnonymous();
    }

    private static async Task<IResult> ShowAsync(HttpContext http, SetupCache setups, DemoAccounts demo) =>
        http.User.Identity?.IsAuthenticated == true && http.User.AtStation() is null
            ? Results.LocalRedirect("~" + ReturnPath(http, http.Request.Query[ReturnField]))
            : await PageAsync(http, setups, demo, "", ReturnPath(http, http.Request.Query[ReturnField]), null, http.Request.Query.ContainsKey(StationEndpoints.EndedField) ? Texts.Station_Ended : null);

    private static async Task<IResult> SignInAsync(HttpContext http, PasswordSignIn door, SetupCache setups, DemoAccounts demo)
    {
        var post = await FormPost.ReadAsync(http);
        var name = post.Text(PasswordSignIn.NameField);
        var returnPath = ReturnPath(http, post.Text(ReturnField));
        if (!post.IsOurs)
        {
            return await PageAsync(http, setups, demo, name, returnPath, Texts.Account_FormTooOld);
        }

        return await door.TryAsync(post) is null
            ? await PageAsync(http, setups, demo, name, returnPath, door.Refusal)
            : Results.LocalRedirect("~" + returnPath);
    }

    private static async Task<IResult> SignOutAsync(HttpContext http, SignInManager<Person> signIn, EnrolStationHandler stations)
    {
        var post = await FormPost.ReadAsync(http);
        if (post.IsOurs)
        {
            if (http.User.AtStation() is { } at)
            {
                await stations.HandleAsync(new LockStation(at.Id), CancellationToken.None);
            }

            await http.SignOutAsync(PinSession.Scheme);
            await signIn.SignOutAsync();
        }

        return Results.LocalRedirect("~" + (StationCookie.SaysItIsAStation(http.Request) ? StationEndpoints.Path : Path));
    }

    private static async Task<IResult> PageAsync(HttpContext http, SetupCache setups, DemoAccounts demo, string name, string returnPath, string? fault, string? notice = null)
    {
        var setup = await setups.CurrentAsync(http.RequestAborted);
        var model = new SignInModel(setup.Site?.Name ?? "", name, returnPath, fault, demo.All)
        {
            Notice = notice,
            StationPath = StationCookie.SaysItIsAStation(http.Request) ? StationEndpoints.Path : null,
        };
        return new RazorComponentResult<SignInPage>(new { Model = model })
        {
            StatusCode = fault is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }

    // Only a path of our own: an address of another site would make the sign-in page a springboard.
    internal static string ReturnPath(HttpContext http, string? asked)
    {
        if (asked is null || !asked.StartsWith('/') || asked.StartsWith("//", StringComparison.Ordinal) || asked.Contains('\\', StringComparison.Ordinal) || asked.Any(char.IsControl))
        {
            return Start;
        }

        // The challenge puts the base path before it; the redirect will do so again.
        var path = asked[..(asked.AsSpan().IndexOfAny('?', '#') is var end and >= 0 ? end : asked.Length)];
        var inside = new PathString(path).StartsWithSegments(http.Request.PathBase, StringComparison.OrdinalIgnoreCase, out var rest) ? rest.Value + asked[path.Length..] : asked;
        return !inside.StartsWith('/') || inside.StartsWith("//", StringComparison.Ordinal) || inside.StartsWith(Path, StringComparison.OrdinalIgnoreCase) ? Start : inside;
    }
}
