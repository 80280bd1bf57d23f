using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account.Stations;

namespace ShopFluids.Web.Account;

/// <summary>What a sign-in carries along, so that no request has to look the person up.</summary>
public static class PersonClaims
{
    internal const string DisplayName = "shopfluids:name";
    internal const string Units = "shopfluids:units";
    internal const string Theme = "shopfluids:theme";

    /// <exception cref="InvalidOperationException">Nobody is signed in.</exception>
    public static Guid PersonId(this ClaimsPrincipal user) =>
        Guid.TryParse(user.FindFirstValue(ClaimTypes.NameIdentifier), out var id) ? id : throw new InvalidOperationException("Nobody is signed in.");

    /// <summary>As it stands on screens; empty when nobody is signed in.</summary>
    public static string ShownName(this ClaimsPrincipal user) => user.FindFirstValue(DisplayName) ?? "";

    /// <summary>The person in the record.</summary>
    /// <exception cref="InvalidOperationException">Nobody is signed in.</exception>
    public static Actor ToActor(this ClaimsPrincipal user) => new(user.PersonId(), user.ShownName(), user.AtStation());

    /// <summary>The person's own choice; null takes the site's.</summary>
    public static UnitSystem? ChosenUnits(this ClaimsPrincipal user) =>
        Enum.TryParse<UnitSystem>(user.FindFirstValue(Units), out var units) && Enum.IsDefined(units) ? units : null;

    /// <summary>light, dark or shop; light when nobody is signed in.</summary>
    public static string ChosenTheme(this ClaimsPrincipal user) => user.FindFirstValue(Theme) ?? "light";

    internal static IEnumerable<Claim> Of(string displayName, UnitSystem? units, string theme)
    {
        yield return new Claim(DisplayName, displayName);
        yield return new Claim(Theme, theme);
        if (units is { } chosen)
        {
            yield return new Claim(Units, ((short)chosen).ToString(CultureInfo.InvariantCulture));
        }
    }
}

/// <summary>Adds the claims above to those of Identity.</summary>
internal sealed class PersonClaimsFactory(UserManager<Person> people, RoleManager<IdentityRole<Guid>> roles, IOptions<IdentityOptions> options)
    : UserClaimsPrincipalFactory<Person, IdentityRole<Guid>>(people, roles, options)
{
    protected override async Task<ClaimsIdentity> GenerateClaimsAsync(Person user)
    {
        var identity = await base.GenerateClaimsAsync(user);
        identity.AddClaims(PersonClaims.Of(user.DisplayName, user.Units, user.Theme));
        return identity;
    }
}
