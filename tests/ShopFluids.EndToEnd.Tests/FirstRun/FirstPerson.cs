using ShopFluids.EndToEnd.Tests.Browser;

namespace ShopFluids.EndToEnd.Tests.FirstRun;

/// <summary>Who opens a shop with the code that the server printed.</summary>
internal static class FirstPerson
{
    private const string Password = "a-long-enough-one";

    public static async Task OpenShopAsync(Visit visit, string code)
    {
        await visit.GoAsync("/");
        await FillAsync(visit, code);
        await visit.Page.WaitForURLAsync("**/board");
        await visit.SettleAsync();
    }

    public static async Task FillAsync(Visit visit, string code)
    {
        foreach (var (field, value) in new[] { ("code", code), ("siteName", "Millrace Works"), ("displayName", "A. Orton"), ("signInName", "orton"), ("password", Password) })
        {
            await visit.Page.Locator($"#{field}").FillAsync(value);
        }

        await visit.Page.Locator("#timeZone").SelectOptionAsync("Europe/London");
        await visit.Page.Locator("button[type=submit]").ClickAsync();
    }
}
