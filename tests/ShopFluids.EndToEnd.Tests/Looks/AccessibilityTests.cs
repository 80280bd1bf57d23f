using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Looks;

/// <summary>axe on every page in every theme and size that it is used in. Nothing is allowed to fail.</summary>
[Collection(SqliteDemoTests.Name)]
public sealed class AccessibilityTests(SqliteDemo demo, Chromium chromium)
{
    private static readonly string[] DeskThemes = ["light", "dark"];
    private static readonly string[] TabletThemes = ["light", "dark", "shop"];
    private static readonly (int Width, int Height)[] DeskSizes = [(1440, 900), (800, 1280)];
    private static readonly (int Width, int Height)[] TabletSizes = [(800, 1280), (390, 844), (1440, 900)];

    // The rule on target size of 2.2 counts what a bar at the foot of the window covers as lost; TargetTests measures the shop floor's own 48 pixels.
    private static readonly AxeRunOptions Rules = new()
    {
        RunOnly = new RunOnlyOptions { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa"] },
        ResultTypes = [ResultType.Violations],
    };

    [Theory, EveryPage]
    public async Task Axe_EveryThemeAndSize_FindsNothing(string name)
    {
        var checkedPage = CheckedPage.Named(name);
        await using var visit = await checkedPage.OpenAsync(demo, chromium);
        var violations = new List<string>();
        foreach (var (width, height) in checkedPage.IsTablet ? TabletSizes : DeskSizes)
        {
            await visit.SizeAsync(width, height);
            foreach (var theme in checkedPage.IsTablet ? TabletThemes : DeskThemes)
            {
                await visit.ThemeAsync(theme);
                violations.AddRange((await FindAsync(visit.Page)).Select(v => $"{theme} {width}x{height}: {v}"));
            }
        }

        Assert.True(violations.Count == 0, string.Join('\n', violations));
    }

    internal static async Task<IReadOnlyList<string>> FindAsync(IPage page)
    {
        var result = await page.RunAxe(Rules);
        return [.. result.Violations.SelectMany(v => v.Nodes.Select(n => $"{v.Id}: {n.Html} {n.Any.Concat(n.All).Concat(n.None).FirstOrDefault()?.Message}"))];
    }
}
