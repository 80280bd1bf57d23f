using System.Security.Claims;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components.Authorization;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Components.Layout;

/// <summary>Who sits at this desk and how things are written for them.</summary>
public sealed class DeskSession(AuthenticationStateProvider authentication, IAuthorizationService authorization, SignInCheck check, SetupCache setups)
{
    public async Task<string> NameAsync() => (await UserAsync()).ShownName();

    /// <summary>Words, numbers and days for this person, with the set-up as it is now.</summary>
    public async Task<DeskWords> WordsAsync(CancellationToken cancellationToken) =>
        await WordsAsync(await setups.CurrentAsync(cancellationToken));

    public async Task<DeskWords> WordsAsync(ShopSetup setup)
    {
        var format = setup.FormatFor((await UserAsync()).ChosenUnits());
        return new DeskWords(setup, format, new Sentences(format, setup));
    }

    /// <summary>The signed-in person as the one who acts.</summary>
    public async Task<Actor> ActorAsync() => (await UserAsync()).ToActor();

    /// <summary>Asked anew of the database for each act: a right can be taken away while a page is open.</summary>
    public async Task<bool> MayAsync(string policy) => (await RightsAsync(policy)).Contains(policy);

    /// <summary>The same for several rights, for which the database is asked once.</summary>
    /// <returns>Those of the rights that the person has.</returns>
    public async Task<IReadOnlySet<string>> RightsAsync(params IReadOnlyList<string> policies)
    {
        var user = await UserAsync();
        var rights = new HashSet<string>(StringComparer.Ordinal);
        foreach (var policy in policies)
        {
            if ((await authorization.AuthorizeAsync(user, resource: null, policy)).Succeeded)
            {
                rights.Add(policy);
            }
        }

        return rights.Count > 0 && await check.StillCountsAsync(user, CancellationToken.None) ? rights : new HashSet<string>();
    }

    private async Task<ClaimsPrincipal> UserAsync() => (await authentication.GetAuthenticationStateAsync()).User;
}

/// <param name="Setup">The snapshot that names and limits are taken from.</param>
public sealed record DeskWords(ShopSetup Setup, ShopFormat Format, Sentences Sentences)
{
    /// <summary>A value without its unit, for where many stand side by side.</summary>
    public string BareValue(string parameter, decimal value) => Setup.FindParameter(parameter) switch
    {
        { Scale: not ParameterScale.Words } known => Format.InUnit((double)value, known.Unit, known.Decimals).Number,
        _ => Sentences.Value(parameter, value),
    };
}
