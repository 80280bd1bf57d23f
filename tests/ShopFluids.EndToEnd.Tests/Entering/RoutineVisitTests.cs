using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Entering;

/// <summary>
/// What a routine visit costs the hand: strength, pH, level and three observations, from the round back to the round, on our own number
/// pad. Its time is reckoned by the keystroke-level model of Card, Moran and Newell (1980); docs/effort.md says with which operators.
/// </summary>
public sealed class RoutineVisitTests(Chromium chromium)
{
    private const int MostTapsBesidesDigits = 4;
    private const double MostSeconds = 20;

    // Card, Moran and Newell, The keystroke-level model, Communications of the ACM 23 (1980) 7; from memory.
    private const double PointSeconds = 1.10;
    private const double PressSeconds = 0.28;
    private const double ThinkSeconds = 1.35;

    // A digit on the pad is a code that means nothing: the slowest of the paper's typing times.
    private const double DigitSeconds = 0.75;

    [Fact]
    public async Task Visit_RoutineValuesInRange_TakesFourTapsBesidesTheDigits()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database, s => s.StepAsync(Some.Step(
            TaskKind.Test, parameters: [ParameterCodes.Concentration, ParameterCodes.Ph, ParameterCodes.Level, ParameterCodes.Odour, ParameterCodes.Foam, ParameterCodes.Fines])));
        await using var tablet = await Visit.OpenAsync(chromium, shop.Server.Address);
        await SignIn.AsAsync(tablet, "op", SmallShop.Password);
        await SwitchPadOnAsync(tablet);
        await tablet.GoAsync("/round");
        var (taps, digits) = (0, 0);

        await TapAsync(tablet.Page.Locator("section.next a.pri"));
        await tablet.Page.WaitForURLAsync("**/enter/*");
        await Assertions.Expect(tablet.Page.Locator("body")).ToHaveAttributeAsync("data-ready", "");
        foreach (var (box, value) in new[] { ("concentration", "8.0"), ("ph", "9.0"), ("level", "300") })
        {
            // Each box is reached without a tap: the first by opening the page, the others when the one before is full.
            await Assertions.Expect(tablet.Page.Locator($"#value-{box}")).ToBeFocusedAsync();
            foreach (var key in value)
            {
                await tablet.Page.Locator($"#pad button[data-key='{key}']").ClickAsync();
                digits++;
            }

            await Assertions.Expect(tablet.Page.Locator($"#value-{box}")).ToHaveValueAsync(value);
        }

        await Assertions.Expect(tablet.Page.Locator(".foot b")).ToHaveTextAsync("3 to measure");
        await TapAsync(tablet.Page.Locator("#fine"));
        await Assertions.Expect(tablet.Page.Locator(".foot b")).ToHaveTextAsync("0 to measure");
        foreach (var seen in new[] { "odour", "foam", "fines" })
        {
            await Assertions.Expect(tablet.Page.Locator($"#value-{seen}-0")).ToBeCheckedAsync();
        }

        await TapAsync(tablet.Page.GetByRole(AriaRole.Button, new() { Name = Texts.Entry_Save, Exact = true }));
        await tablet.Page.WaitForURLAsync("**/saved/**");
        await Assertions.Expect(tablet.Page.Locator(".verdict")).ToContainTextAsync(Texts.Verdict_InRange);
        await TapAsync(tablet.Page.GetByRole(AriaRole.Link, new() { Name = Texts.Round_Back }).Last);
        await tablet.Page.WaitForURLAsync("**/round");

        Assert.True(taps <= MostTapsBesidesDigits, $"{taps} taps");
        // To think: before each value, before the observations, before saving; before the page is opened one walks.
        var seconds = (taps * (PointSeconds + PressSeconds)) + (digits * DigitSeconds) + ((3 + 2) * ThinkSeconds);
        Assert.InRange(seconds, 0, MostSeconds);
        tablet.ExpectNoFaults();

        async Task TapAsync(ILocator what)
        {
            taps++;
            await what.ClickAsync();
        }
    }

    // Who smells it stands beside the sump: the caution is there before anything is saved, out of reach too, and again with what was kept.
    [Fact]
    public async Task Odour_RottenEggPickedOutOfReach_ShowsTheCautionBesideIt()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database, s => s.StepAsync(Some.Step(TaskKind.Test, parameters: [ParameterCodes.Concentration, ParameterCodes.Odour])));
        await using var tablet = await Visit.OpenAsync(chromium, shop.Server.Address);
        await SignIn.AsAsync(tablet, "op", SmallShop.Password);
        await tablet.GoAsync($"/enter/{Some.SumpTag}");
        await Assertions.Expect(tablet.Page.Locator("body")).ToHaveAttributeAsync("data-ready", "");
        var caution = tablet.Page.GetByText(Texts.Caution_HydrogenSulphide);
        await Assertions.Expect(caution).ToBeHiddenAsync();

        await tablet.Page.Context.SetOfflineAsync(true);
        await tablet.Page.Locator("label", new() { Has = tablet.Page.Locator("#value-odour-3") }).ClickAsync();
        await Assertions.Expect(caution).ToBeVisibleAsync();
        await tablet.Page.Locator("label", new() { Has = tablet.Page.Locator("#value-odour-0") }).ClickAsync();
        await Assertions.Expect(caution).ToBeHiddenAsync();
        await tablet.Page.Locator("label", new() { Has = tablet.Page.Locator("#value-odour-3") }).ClickAsync();
        await tablet.Page.Context.SetOfflineAsync(false);
        await tablet.GoAsync($"/enter/{Some.SumpTag}");
        await Assertions.Expect(caution).ToBeVisibleAsync();
    }

    [Theory]
    [InlineData(360, 740)]
    [InlineData(800, 1280)]
    [InlineData(1280, 800)]
    public async Task Pad_SwitchedOn_CoversNoBoxInUseAndHasBigKeys(int width, int height)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await Visit.OpenAsync(chromium, shop.Server.Address, width: width, height: height);
        await SignIn.AsAsync(tablet, "op", SmallShop.Password);
        await SwitchPadOnAsync(tablet);

        await tablet.GoAsync($"/enter/{Some.SumpTag}");
        await Assertions.Expect(tablet.Page.Locator("#pad")).ToBeVisibleAsync();
        foreach (var key in await tablet.Page.Locator("#pad button").AllAsync())
        {
            var size = await key.BoundingBoxAsync();
            Assert.NotNull(size);
            Assert.True(size.Width >= 48 && size.Height >= 48, $"{size.Width} x {size.Height}");
        }

        foreach (var name in new[] { "concentration", "ph", "level" })
        {
            await tablet.Page.Locator($"#value-{name}").FocusAsync();
            var (box, pad) = (await tablet.Page.Locator($"#value-{name}").BoundingBoxAsync(), await tablet.Page.Locator("#pad").BoundingBoxAsync());
            Assert.NotNull(box);
            Assert.NotNull(pad);
            Assert.True(box.Y >= 0 && box.Y + box.Height <= pad.Y, $"{name} at {box.Y}, the pad at {pad.Y}");
        }
    }

    [Fact]
    public async Task Typed_OnlineAndOff_ShowsTheVerdictOfTheServerOrOnlyTheRange()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await Visit.OpenAsync(chromium, shop.Server.Address);
        await SignIn.AsAsync(tablet, "op", SmallShop.Password);
        await tablet.GoAsync($"/enter/{Some.SumpTag}");
        await Assertions.Expect(tablet.Page.Locator("body")).ToHaveAttributeAsync("data-ready", "");
        var (box, work) = (tablet.Page.Locator("#value-ph"), tablet.Page.Locator("#value-ph-work"));
        var block = tablet.Page.Locator("section.par").Filter(new() { Has = box });
        var height = (await block.BoundingBoxAsync())?.Height;

        await box.FillAsync("8,9");
        await Assertions.Expect(work).ToContainTextAsync("= 8.9");
        await Assertions.Expect(work).ToContainTextAsync(Texts.Verdict_InRange);
        await Assertions.Expect(tablet.Page.Locator("#live")).ToContainTextAsync(Texts.Verdict_InRange);
        await box.FillAsync("8.1");
        await Assertions.Expect(work.Locator(".warn, .act")).ToBeVisibleAsync();
        await box.FillAsync("80");
        await Assertions.Expect(work).ToContainTextAsync(Texts.Entry_LiveRefused);
        await box.FillAsync("x");
        await Assertions.Expect(work).ToContainTextAsync(Texts.Entry_LiveNoNumber);

        await tablet.Page.Context.SetOfflineAsync(true);
        await box.FillAsync("9,0");
        await Assertions.Expect(work).ToContainTextAsync(Texts.Entry_LiveInside);
        await box.FillAsync("8.1");
        await Assertions.Expect(work).ToContainTextAsync(Texts.Entry_LiveOutside);
        Assert.Equal(height, (await block.BoundingBoxAsync())?.Height);
    }

    private static async Task SwitchPadOnAsync(Visit tablet)
    {
        await tablet.GoAsync($"/enter/{Some.SumpTag}");
        await tablet.Page.Locator("#pad-switch").ClickAsync();
        await Assertions.Expect(tablet.Page.Locator("#pad")).ToBeVisibleAsync();
    }
}
