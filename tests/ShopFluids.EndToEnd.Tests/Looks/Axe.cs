using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace ShopFluids.EndToEnd.Tests.Looks;

/// <summary>axe within the page. The library's own runner opens another page for every look, which takes longer than the look itself.</summary>
internal static class Axe
{
    // The rule on target size of 2.2 counts what a bar at the foot of the window covers as lost; SmallTargets measures the shop floor's own 48 pixels.
    private const string Look = """
        async () => {
          const found = await axe.run(document, {
            runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa'] }, resultTypes: ['violations'] });
          return found.violations.flatMap(v => v.nodes.map(n => `${v.id}: ${n.html} ${[...n.any, ...n.all, ...n.none][0]?.message ?? ''}`));
        }
        """;

    private static readonly string Script = new BundledAxeScriptProvider().GetScript();

    public static async Task<IReadOnlyList<string>> FindAsync(IPage page)
    {
        if (!await page.EvaluateAsync<bool>("() => 'axe' in window"))
        {
            await page.EvaluateAsync(Script);
        }

        return await page.EvaluateAsync<string[]>(Look);
    }
}
