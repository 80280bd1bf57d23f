using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Identity;
using ShopFluids.Core.People;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Account;

/// <summary>Until somebody has an account, every page leads here; afterwards this leads to the sign-in.</summary>
internal static class FirstRunEndpoints
{
    public const string Path = "/account/first-run";

    public static void MapFirstRun(this IEndpointRouteBuilder app)
    {
        app.MapGet(Path, ShowAsync).AllowAnonymous();
        app.MapPost(Path, OpenAsync).AllowAnonymous();
    }

    /// <summary>Sends people to the first run; programs, health checks and style sheets pass.</summary>
    public static IApplicationBuilder UseFirstRun(this IApplicationBuilder app)
    {
        var firstRun = app.ApplicationServices.GetRequiredService<FirstRun>();
        return app.Use(async (http, next) =>
        {
            var isPage = http.GetEndpoint()?.Metadata.GetMetadata<PassesFirstRun>() is null
                && !http.Request.Path.StartsWithSegments(Path, StringComparison.OrdinalIgnoreCase)
                && !Api.Access.ApiRefusals.IsApi(http.Request);
            if (isPage && !await firstRun.IsOverAsync(http.RequestAborted))
            {
                http.Response.Redirect(http.Request.PathBase + Path);
                return;
            }

            await next(http);
        });
    }

    private static async Task<IResult> ShowAsync(HttpContext http, FirstRun firstRun, ShopSettings settings) =>
        await firstRun.IsOverAsync(http.RequestAborted)
            ? Results.LocalRedirect("~" + SignInEndpoints.Path)
            : Page(new FirstRunModel("", "", settings.TimeZoneId, "en-GB", nameof(UnitSystem.Metric), "", "", NoFaults));

    private static async Task<IResult> OpenAsync(HttpContext http, FirstRun firstRun, OpenShopHandler handler, SignInManager<Person> signIn, ShopClock clock, ILogger<FirstRun> log)
    {
        var post = await FormPost.ReadAsync(http);
        var model = new FirstRunModel(post.Text("code"), post.Text("siteName"), post.Text("timeZone"), post.Text("culture"), post.Text("units"), post.Text("displayName"), post.Text("signInName"), NoFaults);
        if (!post.IsOurs)
        {
            return Page(model with { Faults = Fault("", Texts.Account_FormTooOld) });
        }

        if (await firstRun.IsOverAsync(http.RequestAborted))
        {
            return Results.LocalRedirect("~" + SignInEndpoints.Path);
        }

        if (!firstRun.Accepts(model.Code, out var isNewCode))
        {
            log.FirstRunCodeRefused();
            if (isNewCode)
            {
                await FirstRunNotice.PrintAsync(firstRun);
            }

            return Page(model with { Faults = Fault("code", Texts.Account_CodeRefused) });
        }

        if (!Enum.TryParse<UnitSystem>(model.Units, out var units) || !Enum.IsDefined(units))
        {
            return Page(model with { Faults = Fault("units", Texts.Account_UnknownChoice) });
        }

        var command = new OpenShop(clock.NewId(), clock.NewId(), model.SiteName, model.TimeZoneId, model.Culture, units, model.DisplayName, model.SignInName, post.Secret("password"));
        var result = await handler.HandleAsync(command, CancellationToken.None);
        if (result.Error is { } error)
        {
            return Page(model with { Faults = AccountSentences.Of(error) });
        }

        log.ShopOpened(command.PersonId);
        await signIn.PasswordSignInAsync(model.SignInName, command.Password, isPersistent: false, lockoutOnFailure: false);
        return Results.LocalRedirect("~/");
    }

    private static IReadOnlyDictionary<string, string> NoFaults { get; } = new Dictionary<string, string>();

    private static Dictionary<string, string> Fault(string field, string sentence) => new() { [field] = sentence };

    private static RazorComponentResult<FirstRunPage> Page(FirstRunModel model) => new(new { Model = model })
    {
        StatusCode = model.Faults.Count == 0 ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
    };
}

/// <summary>On endpoints that are there before the shop has its first person.</summary>
internal sealed class PassesFirstRun;

/// <summary>Shows the code to whoever reads the server's output, and to nobody else.</summary>
internal static class FirstRunNotice
{
    public static Task PrintAsync(FirstRun firstRun) =>
        Console.Out.WriteLineAsync(string.Format(System.Globalization.CultureInfo.InvariantCulture, Texts.Account_FirstRunCodeLine, firstRun.Code));
}
