using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Browser;

/// <summary>Through the sign-in page, as people do.</summary>
internal static class SignIn
{
    /// <summary>With the account that the demo's sign-in page shows for a role.</summary>
    /// <returns>The cookies, for further visits.</returns>
    public static async Task<string> AsDemoAsync(Chromium chromium, Uri address, string role)
    {
        await using var visit = await Visit.OpenAsync(chromium, address);
        await visit.GoAsync("/account/sign-in");
        var cells = await visit.Page.Locator(".demo tr", new() { HasText = role }).Locator("td").AllInnerTextsAsync();
        await AsAsync(visit, cells[0].Trim(), cells[1].Trim());
        return await visit.Page.Context.StorageStateAsync();
    }

    public static async Task AsAsync(Visit visit, string name, string password)
    {
        await visit.GoAsync("/account/sign-in");
        await visit.Page.GetByLabel(Texts.Account_SignInName, new() { Exact = true }).FillAsync(name);
        await visit.Page.GetByLabel(Texts.Account_Password, new() { Exact = true }).FillAsync(password);
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = Texts.Account_SignIn, Exact = true }).ClickAsync();
        await visit.Page.WaitForURLAsync(u => !u.Contains("/account/sign-in", StringComparison.Ordinal));
        Assert.DoesNotContain("/account/", visit.Page.Url, StringComparison.Ordinal);
    }
}
