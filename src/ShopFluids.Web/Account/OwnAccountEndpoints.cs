using System.Security.Claims;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Identity;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Account;

/// <summary>A person's own choices and password.</summary>
internal static class OwnAccountEndpoints
{
    public const string Path = "/account";
    public const string PreferencesPath = "/account/preferences";
    public const string PasswordPath = "/account/password";
    public const string PinPath = "/account/pin";
    private const string SavedField = "saved";

    public static void MapOwnAccount(this IEndpointRouteBuilder app)
    {
        app.MapGet(Path, (HttpContext http) => Page(Start(http) with { Notice = http.Request.Query.ContainsKey(SavedField) ? Texts.Account_Saved : null })).RequireAuthorization(Policies.CanRead);
        app.MapPost(PreferencesPath, SavePreferencesAsync).RequireAuthorization(Policies.CanRead);
        app.MapPost(PasswordPath, ChangePasswordAsync).RequireAuthorization(Policies.CanRead);
        app.MapPost(PinPath, SetPinAsync).RequireAuthorization(Policies.CanOperate);
        // A refused form stands at the address it was posted to; opened again, that address leads back.
        app.MapGet(PreferencesPath, () => Results.LocalRedirect("~" + Path)).RequireAuthorization(Policies.CanRead);
        app.MapGet(PinPath, () => Results.LocalRedirect("~" + Path)).RequireAuthorization(Policies.CanRead);
        app.MapGet(PasswordPath, () => Results.LocalRedirect("~" + Path)).RequireAuthorization(Policies.CanRead);
    }

    private static async Task<IResult> SavePreferencesAsync(HttpContext http, ChangeAccountHandler handler, SignInManager<Person> signIn)
    {
        var post = await FormPost.ReadAsync(http);
        var model = Start(http) with { Units = post.Text("units"), Theme = post.Text("theme") };
        if (!post.IsOurs)
        {
            return Page(model with { Faults = Fault("", Texts.Account_FormTooOld) });
        }

        UnitSystem? units = null;
        if (model.Units.Length > 0)
        {
            if (!Enum.TryParse<UnitSystem>(model.Units, out var chosen))
            {
                return Page(model with { Faults = Fault("units", Texts.Account_UnknownChoice) });
            }

            units = chosen;
        }

        return await FinishAsync(http, model, signIn, await handler.HandleAsync(new ChangePreferences(http.User.PersonId(), units, model.Theme), http.User.ToActor(), CancellationToken.None));
    }

    private static async Task<IResult> ChangePasswordAsync(HttpContext http, ChangeAccountHandler handler, SignInManager<Person> signIn)
    {
        var post = await FormPost.ReadAsync(http);
        if (!post.IsOurs)
        {
            return Page(Start(http) with { Faults = Fault("", Texts.Account_FormTooOld) });
        }

        var command = new ChangePassword(http.User.PersonId(), post.Secret("currentPassword"), post.Secret("password"));
        return await FinishAsync(http, Start(http), signIn, await handler.HandleAsync(command, http.User.ToActor(), CancellationToken.None));
    }

    private static async Task<IResult> SetPinAsync(HttpContext http, SetPinHandler handler, SignInManager<Person> signIn)
    {
        var post = await FormPost.ReadAsync(http);
        return post.IsOurs
            ? await FinishAsync(http, Start(http), signIn, await handler.HandleAsync(new SetOwnPin(http.User.PersonId(), post.Secret(SetPinHandler.CurrentPasswordField), post.Secret("pin")), http.User.ToActor(), CancellationToken.None))
            : Page(Start(http) with { Faults = Fault("", Texts.Account_FormTooOld) });
    }

    private static async Task<IResult> FinishAsync(HttpContext http, OwnAccountModel model, SignInManager<Person> signIn, Core.Database.Result<MadeAccount> result)
    {
        if (result.Error is { } error)
        {
            return Page(model with { Faults = AccountSentences.Of(error) });
        }

        // The cookie carries the choices, and the stamp that a new password changes.
        if (await signIn.UserManager.FindByIdAsync(http.User.PersonId().ToString("D")) is { } person)
        {
            await signIn.RefreshSignInAsync(person);
        }

        return Results.LocalRedirect($"~{Path}?{SavedField}=1");
    }

    private static OwnAccountModel Start(HttpContext http) => new(
        http.User.Identity?.Name ?? "",
        http.User.ShownName(),
        string.Join(", ", http.User.FindAll(ClaimTypes.Role).Select(r => RoleNames.Of(r.Value))),
        http.User.ChosenUnits()?.ToString() ?? "",
        http.User.ChosenTheme(),
        null,
        new Dictionary<string, string>())
    {
        MayHavePin = http.User.IsInRole(Roles.Operator) || http.User.IsInRole(Roles.Supervisor),
    };

    private static Dictionary<string, string> Fault(string field, string sentence) => new() { [field] = sentence };

    private static RazorComponentResult<OwnAccountPage> Page(OwnAccountModel model) => new(new { Model = model })
    {
        StatusCode = model.Faults.Count == 0 ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
    };
}
