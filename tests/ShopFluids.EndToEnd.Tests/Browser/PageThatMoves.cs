using Microsoft.Playwright;

namespace ShopFluids.EndToEnd.Tests.Browser;

internal static class PageThatMoves
{
    /// <summary>Asks a page that may be left in that moment, as after saving: then the page that comes is asked.</summary>
    public static async Task<T> AskAsync<T>(this IPage page, string script, object? about = null)
    {
        while (true)
        {
            try
            {
                return await page.EvaluateAsync<T>(script, about);
            }
            catch (PlaywrightException fault) when (fault.Message.Contains("Execution context was destroyed", StringComparison.Ordinal))
            {
                await page.WaitForLoadStateAsync();
            }
        }
    }
}
