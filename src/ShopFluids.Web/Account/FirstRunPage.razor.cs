using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.People;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Account;

/// <summary>What was typed, to be shown again; never the password.</summary>
public sealed record FirstRunModel(string Code, string SiteName, string TimeZoneId, string Culture, string Units, string DisplayName, string SignInName, IReadOnlyDictionary<string, string> Faults);

public partial class FirstRunPage
{
    [Parameter, EditorRequired] public required FirstRunModel Model { get; set; }

    private static string PasswordHint => string.Format(CultureInfo.CurrentCulture, Texts.Account_PasswordLength, AccountRules.MinimumPasswordLength, AccountRules.MaximumPasswordLength);

    private string? Fault(string field) => Model.Faults.GetValueOrDefault(field);
}
