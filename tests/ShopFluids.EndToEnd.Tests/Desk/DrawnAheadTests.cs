using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Desk;

/// <summary>The board stands in its document: it is read before its circuit is there, and the circuit takes nothing of it away again.</summary>
[Collection(SqliteDemoTests.Name)]
public sealed class DrawnAheadTests(SqliteDemo demo, Chromium chromium)
{
    // Each different state of the document while it is built: whether it can be pressed, its rows, its places to go, and whether it says that it loads.
    private const string Watch = """
        window.seen = [];
        new MutationObserver(() => {
          const main = document.getElementById('main');
          const now = [main === null ? 'none' : main.dataset.ahead === undefined ? 'live' : 'ahead', document.querySelectorAll('table.b tbody tr').length,
            document.querySelectorAll('header.bar nav a').length, document.querySelector('main [aria-busy=true]') !== null].join(' ');
          if (window.seen.at(-1) !== now) {
            window.seen.push(now);
          }
        }).observe(document, { subtree: true, childList: true, attributes: true });
        """;

    [Fact]
    public async Task Board_CircuitTakesOver_NothingGoesAwayAndComesBack()
    {
        await using var visit = await demo.VisitAsync(chromium, Texts.Role_Supervisor, 1440, 900);
        await visit.Page.AddInitScriptAsync(Watch);

        await visit.GoAsync("/board");

        var seen = await visit.Page.EvaluateAsync<string[]>("() => window.seen");
        var (whole, live) = (seen.Single(s => s.StartsWith("live ", StringComparison.Ordinal)).Replace("live ", "ahead ", StringComparison.Ordinal), seen[^1]);
        Assert.StartsWith("live ", live, StringComparison.Ordinal);
        Assert.EndsWith(" false", live, StringComparison.Ordinal);
        Assert.Equal(whole, seen[^2]);
        await visit.Page.Locator("table.b .c-who button").First.ClickAsync();
        await visit.Page.GetByRole(AriaRole.Dialog).WaitForAsync();
        visit.ExpectNoFaults();
    }

    // The circuit is kept away until everything was pressed.
    [Fact]
    public async Task Board_PressedBeforeItsCircuit_DoesItOnceItIsThere()
    {
        await using var visit = await demo.VisitAsync(chromium, Texts.Role_Supervisor, 1440, 900);
        var gate = new TaskCompletionSource();
        await visit.Page.RouteAsync("**/_blazor/negotiate*", async route =>
        {
            await gate.Task;
            await route.ContinueAsync();
        });
        await visit.Page.GotoAsync("/board");
        await visit.Page.Locator("main[data-ahead] table.b .c-who button").First.ClickAsync();
        await visit.Page.Locator("#seek").FillAsync("s-12");
        Assert.Equal(0, await visit.Page.GetByRole(AriaRole.Dialog).CountAsync());

        gate.SetResult();

        await visit.Page.GetByRole(AriaRole.Dialog).WaitForAsync();
        await Assertions.Expect(visit.Page.Locator("#seek")).ToHaveValueAsync("s-12");
        await Assertions.Expect(visit.Page.Locator("[data-ahead]")).ToHaveCountAsync(0);
        visit.ExpectNoFaults();
    }

    [Fact]
    public async Task Board_WithoutScript_IsRead()
    {
        await using var visit = await demo.VisitAsync(chromium, Texts.Role_Supervisor, 1440, 900, hasScript: false);

        await visit.GoAsync("/board");

        Assert.NotEqual(0, await visit.Page.Locator("table.b tbody tr").CountAsync());
        Assert.StartsWith("As of ", await visit.Page.Locator(".fresh [role=status]").InnerTextAsync(), StringComparison.Ordinal);
        await visit.Page.Locator("table.b .tg").First.ClickAsync();
        await visit.Page.WaitForURLAsync("**/sumps/*");
    }
}
