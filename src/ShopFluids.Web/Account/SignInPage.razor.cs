using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Account;

/// <param name="ReturnPath">Where to go afterwards, within this program.</param>
public sealed record SignInModel(string SiteName, string Name, string ReturnPath, string? Fault, IReadOnlyList<DemoAccount> DemoAccounts)
{
    /// <summary>Why one has to sign in here and now.</summary>
    public string? Notice { get; init; }

    /// <summary>On a shared tablet: where the tiles of its people are.</summary>
    public string? StationPath { get; init; }

    /// <summary>Fields of the form that waits for the sign-in.</summary>
    public IReadOnlyList<KeyValuePair<string, string>> Carried { get; init; } = [];
}

/// <summary>An account that the demo shop shows to everybody.</summary>
public sealed record DemoAccount(string SignInName, string Password, string Role, string? Pin = null);

public partial class SignInPage
{
    [Parameter, EditorRequired] public required SignInModel Model { get; set; }

    [Inject] public required IHttpContextAccessor Http { get; init; }

    private string BasePath => Http.HttpContext?.Request.PathBase.Value ?? "";
}
