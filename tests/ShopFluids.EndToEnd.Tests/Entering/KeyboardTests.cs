using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
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
        () => document.activeElement.name !== [...document.querySelectorAll('#entry input[data-parameter], #entry .obs input[type=radio]')].filter(stop => stop.offsetParent && !stop.closest('details:not([open])')).at(-1).name
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

        // Enter goes on to the next box or picker; from the last one it saves.
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

    // What is due is not passed by, and what is typed on the pad goes where the cursor is going.
    [Fact]
    public async Task Enter_DuePickerBetweenTwoBoxes_StopsAtIt()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database, shop => shop.StepAsync(Some.Step(TaskKind.Test, parameters: [ParameterCodes.Level, ParameterCodes.Odour, ParameterCodes.TrampOil])));
        await using var tablet = await Visit.OpenAsync(chromium, shop.Server.Address);
        await SignIn.AsAsync(tablet, "op", SmallShop.Password);
        await tablet.GoAsync($"/enter/{Some.SumpTag}");
        await Assertions.Expect(tablet.Page.Locator("body")).ToHaveAttributeAsync("data-ready", "");
        await tablet.Page.Locator("#value-level").FillAsync("300");

        await tablet.Page.Keyboard.PressAsync("Enter");
        var first = await tablet.Page.EvaluateAsync<string>("() => document.activeElement.name");
        await tablet.Page.Keyboard.PressAsync("Enter");
        var second = await tablet.Page.EvaluateAsync<string>("() => document.activeElement.name");

        Assert.Equal(("value-odour", "value-tramp-oil"), (first, second));
        await tablet.Page.Locator("#pad-switch").ClickAsync();
        await tablet.Page.Locator("#value-level").FocusAsync();
        foreach (var key in new[] { "next", "2" })
        {
            await tablet.Page.Locator($"#pad [data-key='{key}']").ClickAsync();
        }

        Assert.Equal(("300", "2"), (await tablet.Page.Locator("#value-level").InputValueAsync(), await tablet.Page.Locator("#value-tramp-oil").InputValueAsync()));
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
