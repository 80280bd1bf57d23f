using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.People;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Account;

/// <param name="Units">The name of the unit system; empty takes the site's.</param>
public sealed record OwnAccountModel(string SignInName, string DisplayName, string Roles, string Units, string Theme, string? Notice, IReadOnlyDictionary<string, string> Faults)
{
    /// <summary>Who takes readings may do so at the stations.</summary>
    public bool MayHavePin { get; init; }
}

public partial class OwnAccountPage
{
    [Parameter, EditorRequired] public required OwnAccountModel Model { get; set; }

    [Inject] public required IHttpContextAccessor Http { get; init; }

    private string BasePath => Http.HttpContext?.Request.PathBase.Value ?? "";

    private static string PasswordHint => string.Format(CultureInfo.CurrentCulture, Texts.Account_PasswordLength, AccountRules.MinimumPasswordLength, AccountRules.MaximumPasswordLength);

    private string? Fault(string field) => Model.Faults.GetValueOrDefault(field);
}
