using System.Net;
using System.Text.RegularExpressions;

namespace ShopFluids.Benchmarks;

/// <summary>Signs a client in as a person does, through the page.</summary>
internal static partial class DeskSignIn
{
    private static readonly Uri SignIn = new("/account/sign-in", UriKind.Relative);

    public static async Task SignInAsync(HttpClient client, string name, string password)
    {
        var token = Token().Match(await client.GetStringAsync(SignIn)).Groups["token"].Value;
        using var form = new FormUrlEncodedContent([new("__RequestVerificationToken", WebUtility.HtmlDecode(token)), new("name", name), new("password", password)]);
        using var answer = await client.PostAsync(SignIn, form);
        answer.EnsureSuccessStatusCode();
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"(?<token>[^\"]+)\"", RegexOptions.None, 1000)]
    private static partial Regex Token();
}
