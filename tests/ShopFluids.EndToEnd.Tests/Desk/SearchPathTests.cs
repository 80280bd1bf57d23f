using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Looks;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Desk;

/// <summary>From any desk page to anything with a name, by the keyboard alone.</summary>
[Collection(SqliteDemoTests.Name)]
public sealed class SearchPathTests(SqliteDemo demo, Chromium chromium)
{
    [Fact]
    public async Task Slash_TypeArrowsEnter_OpensTheSumpWithoutTheMouse()
    {
        await using var visit = await OpenAsync("/board");
        var box = visit.Page.Locator("#seek");

        await visit.Page.Keyboard.PressAsync("/");
        await Assertions.Expect(box).ToBeFocusedAsync();
        await Assertions.Expect(box).ToHaveValueAsync("");
        await visit.Page.Keyboard.TypeAsync("s12");
        var first = visit.Page.Locator("#seek-list [role=option]").First;
        await Assertions.Expect(first).ToContainTextAsync("S-12");
        await Assertions.Expect(box).ToHaveAttributeAsync("aria-expanded", "true");
        await Assertions.Expect(visit.Page.Locator("#seek-said")).ToContainTextAsync("found");

        await visit.Page.Keyboard.PressAsync("ArrowDown");
        await Assertions.Expect(first).ToHaveAttributeAsync("aria-selected", "true");
        await Assertions.Expect(box).ToHaveAttributeAsync("aria-activedescendant", await first.GetAttributeAsync("id") ?? "");
        Assert.Empty(await Axe.FindAsync(visit.Page));
        await visit.Page.Keyboard.PressAsync("Enter");

        await visit.Page.WaitForURLAsync("**/sumps/S-12");
        await Assertions.Expect(visit.Page.Locator("#seek-list")).ToBeHiddenAsync();
        visit.ExpectNoFaults();
    }

    [Fact]
    public async Task Arrows_AtTheEnds_GoRoundAndEscapeCloses()
    {
        await using var visit = await OpenAsync("/sumps");
        var box = visit.Page.Locator("#seek");
        await box.FillAsync("s-0");
        var options = visit.Page.Locator("#seek-list [role=option]");
        await options.First.WaitForAsync();

        await visit.Page.Keyboard.PressAsync("ArrowUp");
        await Assertions.Expect(options.Last).ToHaveAttributeAsync("aria-selected", "true");
        await visit.Page.Keyboard.PressAsync("ArrowDown");
        await Assertions.Expect(options.First).ToHaveAttributeAsync("aria-selected", "true");
        await Assertions.Expect(visit.Page.Locator("#seek-list [aria-selected=true]")).ToHaveCountAsync(1);

        await visit.Page.Keyboard.PressAsync("Escape");
        await Assertions.Expect(visit.Page.Locator("#seek-list")).ToBeHiddenAsync();
        await Assertions.Expect(box).ToHaveAttributeAsync("aria-expanded", "false");
        await Assertions.Expect(box).ToHaveValueAsync("s-0");
        await visit.Page.Keyboard.PressAsync("Escape");
        await Assertions.Expect(box).ToHaveValueAsync("");
    }

    [Fact]
    public async Task Enter_NothingChosen_OpensThePageOfAllThatFits()
    {
        await using var visit = await OpenAsync("/bench");

        await visit.Page.Keyboard.PressAsync("/");
        await visit.Page.Keyboard.TypeAsync("s-0");
        await visit.Page.Keyboard.PressAsync("Enter");

        await visit.Page.WaitForURLAsync("**/search?q=s-0");
        await Assertions.Expect(visit.Page.Locator("#group-Sumps")).ToBeVisibleAsync();
        await visit.Page.Keyboard.PressAsync("/");
        await Assertions.Expect(visit.Page.Locator("#seek")).ToBeFocusedAsync();
    }

    [Fact]
    public async Task Slash_TypedIntoAField_IsALetterLikeAny()
    {
        await using var visit = await OpenAsync("/sumps");
        var field = visit.Page.Locator("main input").First;
        await field.FocusAsync();

        await visit.Page.Keyboard.PressAsync("/");

        await Assertions.Expect(field).ToBeFocusedAsync();
    }

    [Fact]
    public async Task Type_NothingIsCalledThat_SaysSo()
    {
        await using var visit = await OpenAsync("/board");

        await visit.Page.Locator("#seek").FillAsync("no such thing");

        await Assertions.Expect(visit.Page.Locator("#seek-none")).ToHaveTextAsync(Texts.Search_Nothing);
        await Assertions.Expect(visit.Page.Locator("#seek")).ToHaveAttributeAsync("aria-expanded", "false");
    }

    private async Task<Visit> OpenAsync(string path)
    {
        var visit = await demo.VisitAsync(chromium, Texts.Role_Supervisor, 1440, 900);
        await visit.GoAsync(path);
        return visit;
    }
}
