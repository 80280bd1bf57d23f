using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Entering;

/// <summary>Everything that a finger can press, the keyboard reaches, and shows where it is.</summary>
[Collection(SqliteDemoTests.Name)]
public sealed class KeyboardTests(SqliteDemo demo, Chromium chromium)
{
    private const int MostPresses = 60;

    // Focus shows as a ring on the control itself, or on the drawn key right after it.
    private const string HasRing = """
        () => {
          const at = document.activeElement;
          return [at, at?.nextElementSibling].some(e => e && (getComputedStyle(e).boxShadow !== 'none'
            || (getComputedStyle(e).outlineStyle !== 'none' && parseFloat(getComputedStyle(e).outlineWidth) > 0)));
        }
        """;

    private const string IsNotAtTheLast = """
        () => document.activeElement !== [...document.querySelectorAll('#entry input[data-parameter]')].filter(box => box.offsetParent && !box.closest('details:not([open])')).at(-1)
        """;

    [Fact]
    public async Task Entry_ByKeyboardAlone_IsSaved()
    {
        await using var tablet = await demo.VisitAsync(chromium, Texts.Role_Operator);
        await tablet.GoAsync("/round");
        var entry = new EntryPage(tablet);
        await ReachAsync(tablet, tablet.Page.Locator("section.next a.pri"));
        await tablet.Page.Keyboard.PressAsync("Enter");
        await tablet.Page.WaitForURLAsync("**/enter/*");
        await tablet.SettleAsync();

        // What is not due today is folded, and which sump is next depends on the day: a key opens the fold.
        if (!await entry.Concentration.IsVisibleAsync())
        {
            await ReachAsync(tablet, tablet.Page.Locator("details.more > summary").First);
            await tablet.Page.Keyboard.PressAsync("Enter");
        }

        await TypeAtAsync(tablet, entry.Concentration, "5.2");
        await TypeAtAsync(tablet, entry.Ph, "9.0");

        // Enter goes on to the next box; from the last one it saves.
        await Assertions.Expect(tablet.Page.Locator("body")).ToHaveAttributeAsync("data-ready", "");
        for (var press = 0; await tablet.Page.EvaluateAsync<bool>(IsNotAtTheLast); press++)
        {
            Assert.True(press < MostPresses, "Enter does not reach the last box.");
            await tablet.Page.Keyboard.PressAsync("Enter");
        }

        await entry.MoveOnAsync(() => tablet.Page.Keyboard.PressAsync("Enter"));
        while (await entry.Keep.CountAsync() > 0)
        {
            await ReachAsync(tablet, entry.Keep.First);
            await entry.MoveOnAsync(() => tablet.Page.Keyboard.PressAsync("Enter"));
        }

        Assert.Contains("/saved/", tablet.Page.Url, StringComparison.Ordinal);
        tablet.ExpectNoFaults();
    }

    [Theory]
    [InlineData("/account")]
    [InlineData("/round?all=1")]
    [InlineData("/board")]
    [InlineData("/sumps")]
    [InlineData("/sheets")]
    [InlineData("/setup/fluids/new")]
    public async Task Tab_ThroughAPage_ShowsWhereItIs(string path)
    {
        await using var visit = await demo.VisitAsync(chromium, Texts.Role_Supervisor, 1440, 900);
        await visit.GoAsync(path);
        var stops = 0;
        for (var press = 0; press < MostPresses; press++)
        {
            await visit.Page.Keyboard.PressAsync("Tab");
            if (await visit.Page.EvaluateAsync<bool>("() => document.activeElement === document.body"))
            {
                break;
            }

            // The page itself moves the focus to its heading when its island is there, which may be after the first press; it is no stop.
            if (await visit.Page.EvaluateAsync<bool>("() => document.activeElement.tagName === 'H1'"))
            {
                continue;
            }

            stops++;
            Assert.True(await visit.Page.EvaluateAsync<bool>(HasRing), $"No ring at stop {stops}: {await DescribeAsync(visit.Page)}");
        }

        Assert.InRange(stops, 3, MostPresses);
    }

    private static async Task TypeAtAsync(Visit visit, ILocator box, string text)
    {
        await ReachAsync(visit, box);
        await visit.Page.Keyboard.TypeAsync(text);
    }

    /// <summary>Presses Tab until the control has the focus.</summary>
    private static async Task ReachAsync(Visit visit, ILocator control)
    {
        for (var press = 0; press < MostPresses; press++)
        {
            if (await control.EvaluateAsync<bool>("e => e === document.activeElement"))
            {
                Assert.True(await visit.Page.EvaluateAsync<bool>(HasRing), $"No ring: {await DescribeAsync(visit.Page)}");
                return;
            }

            await visit.Page.Keyboard.PressAsync("Tab");
        }

        Assert.Fail($"{MostPresses} presses of Tab did not reach {control}.");
    }

    private static Task<string> DescribeAsync(IPage page) => page.EvaluateAsync<string>("() => document.activeElement.outerHTML.slice(0, 300)");
}
