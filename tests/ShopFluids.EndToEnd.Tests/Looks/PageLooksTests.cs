using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Looks;

/// <summary>
/// Every page in one visit, for opening it takes longest: axe finds nothing in any theme and in any size that it is used in, nothing sticks out of
/// the window, what is pressed on the shop floor is large enough, and the page breaks no content policy, asks no other host and lets no script fail.
/// </summary>
[Collection(SqliteDemoTests.Name)]
public sealed class PageLooksTests(SqliteDemo demo, Chromium chromium)
{
    private static readonly string[] DeskThemes = ["light", "dark"];
    private static readonly string[] TabletThemes = ["light", "dark", "shop"];
    private static readonly (int Width, int Height)[] DeskSizes = [(1440, 900), (800, 1280)];
    private static readonly (int Width, int Height)[] TabletSizes = [(800, 1280), (360, 640), (1280, 800)];

    [Theory, EveryPage]
    public async Task Page_EveryThemeAndSize_IsAccessibleFitsItsWindowAndKeepsThePolicy(string name)
    {
        var checkedPage = CheckedPage.Named(name);
        await using var visit = await checkedPage.OpenAsync(demo, chromium);
        var faults = new List<string>();
        var sizes = checkedPage.IsTablet ? TabletSizes : DeskSizes;
        foreach (var (width, height) in sizes)
        {
            await visit.SizeAsync(width, height);
            // Colours do not hang on the size: the other themes are looked at in the first.
            foreach (var theme in (checkedPage.IsTablet ? TabletThemes : DeskThemes).Where(t => t == "light" || (width, height) == sizes[0]))
            {
                await visit.ThemeAsync(theme);
                faults.AddRange((await Axe.FindAsync(visit.Page)).Select(v => $"axe, {theme} {width}x{height}: {v}"));
            }

            if (checkedPage.IsTablet)
            {
                faults.AddRange((await SmallTargets.FindAsync(visit)).Select(t => $"too small to press, {width}x{height}: {t}"));
            }
        }

        faults.AddRange(await PageWidth.FaultsAsync(visit));
        Assert.True(faults.Count == 0, string.Join('\n', faults));
        visit.ExpectNoFaults();
    }
}
