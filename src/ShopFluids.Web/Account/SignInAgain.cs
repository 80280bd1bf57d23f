using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Authorization.Policy;
using Microsoft.AspNetCore.Identity;
using ShopFluids.Core.People;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account.Stations;

namespace ShopFluids.Web.Account;

/// <summary>
/// A form that is sent after the sign-in has ended is not thrown away: its values go into the sign-in page, and come back in
/// their own page once somebody has signed in. Until then nothing is done, and then not before it is sent again, for only a
/// page of the person who is signed in can prove that it is ours.
/// </summary>
internal sealed class SignInAgain(IPolicyEvaluator policies) : IAuthorizationMiddlewareResultHandler
{
    private static readonly AuthorizationMiddlewareResultHandler Usual = new();

    public async Task HandleAsync(RequestDelegate next, HttpContext context, AuthorizationPolicy policy, PolicyAuthorizationResult authorizeResult)
    {
        if (!authorizeResult.Challenged || context.GetEndpoint()?.Metadata.GetMetadata<KeepsWhatWasTyped>() is null || !context.Request.HasFormContentType)
        {
            await Usual.HandleAsync(next, context, policy, authorizeResult);
            return;
        }

        var post = await FormPost.ReadAsync(context);
        if (post.Form.Count == 0)
        {
            await Usual.HandleAsync(next, context, policy, authorizeResult);
            return;
        }

        if (context.GetEndpoint()?.Metadata.GetMetadata<AtStation>() is not null && await context.StationAsync() is { } station)
        {
            if (await context.RequestServices.GetRequiredService<StationAgain>().AskAsync(context, station, post) is { } user)
            {
                await LetInAsync(next, context, policy, user, PinSession.Scheme);
            }

            return;
        }

        if (!post.Form.ContainsKey(PasswordSignIn.PasswordField))
        {
            await OfferAsync(context, post, null);
            return;
        }

        var door = context.RequestServices.GetRequiredService<PasswordSignIn>();
        if (!post.IsOurs)
        {
            await OfferAsync(context, post, Texts.Account_FormTooOld);
        }
        else if (await door.TryAsync(post) is { } person)
        {
            var user = await context.RequestServices.GetRequiredService<SignInManager<Person>>().CreateUserPrincipalAsync(person);
            await LetInAsync(next, context, policy, user, IdentityConstants.ApplicationScheme);
        }
        else
        {
            await OfferAsync(context, post, door.Refusal);
        }
    }

    private async Task LetInAsync(RequestDelegate next, HttpContext context, AuthorizationPolicy policy, ClaimsPrincipal user, string scheme)
    {
        context.User = user;
        context.Features.Set(new SignedInWithThisForm());
        var ticket = AuthenticateResult.Success(new AuthenticationTicket(user, scheme));
        await Usual.HandleAsync(next, context, policy, await policies.AuthorizeAsync(policy, ticket, context, context));
    }

    private static async Task OfferAsync(HttpContext context, FormPost post, string? fault)
    {
        var setup = await context.RequestServices.GetRequiredService<SetupCache>().CurrentAsync(context.RequestAborted);
        var carried = post.Carried(PasswordSignIn.NameField, PasswordSignIn.PasswordField, FormPost.TokenField, SignInEndpoints.ReturnField);
        var model = new SignInModel(setup.Site?.Name ?? "", post.Text(PasswordSignIn.NameField), "/", fault, context.RequestServices.GetRequiredService<DemoAccounts>().All)
        {
            Carried = carried,
            Notice = Texts.Account_SignInEnded,
        };
        await new Microsoft.AspNetCore.Http.HttpResults.RazorComponentResult<SignInPage>(new { Model = model }) { StatusCode = StatusCodes.Status401Unauthorized }.ExecuteAsync(context);
    }
}

/// <summary>On addresses whose form takes work to fill in: it outlives the sign-in.</summary>
internal sealed class KeepsWhatWasTyped;

/// <summary>The form came through the sign-in page: it is shown, not done.</summary>
internal sealed class SignedInWithThisForm;
