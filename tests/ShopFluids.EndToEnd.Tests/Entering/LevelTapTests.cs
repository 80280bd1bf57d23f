using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Entering;

/// <summary>What a tablet does beside typing: the level tapped on the picture, a tone and a tremble when a reading is stored.</summary>
public sealed class LevelTapTests(Chromium chromium)
{
    private const string Enter = $"/enter/{Some.SumpTag}";

    // What the tablet would do, written down: over pages, as it stays on the tablet.
    private const string Listening = """
        const note = text => localStorage.setItem('heard', `${localStorage.getItem('heard') ?? ''}${text} `);
        Navigator.prototype.vibrate = pattern => { note(pattern.join('-')); return true; };
        globalThis.AudioContext = class {
          currentTime = 0;
          createOscillator() {
            const frequency = {};
            return { frequency, connect() {}, start() { note(`${frequency.value}Hz`); }, stop() {} };
          }
        };
        """;

    [Fact]
    public async Task Tap_OnTheSumpsPicture_PutsTheLevelIntoTheBoxInTheChosenUnit()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        var entry = new EntryPage(tablet);
        var (picture, box, unit) = (tablet.Page.Locator("#level-picture"), tablet.Page.Locator("input[name='value-level']"), tablet.Page.Locator("select[name='way-level']"));

        foreach (var (shown, typed) in new[] { ("in", "11.75"), ("%", "75"), ("mm", "300") })
        {
            await unit.SelectOptionAsync(new SelectOptionValue { Label = shown });
            await TapAsync(picture, 0.75f);
            await Assertions.Expect(box).ToHaveValueAsync(typed);
        }

        // Above the brim is the brim; what is typed over it stands on the picture.
        await TapAsync(picture, 1.04f);
        await Assertions.Expect(box).ToHaveValueAsync("400");
        await entry.TypeAsync("8.0", "9.0", "200");
        await Assertions.Expect(picture.Locator(".lv-now")).ToHaveAttributeAsync("transform", "translate(0 100)");
        await TapAsync(picture, 0.75f);
        await entry.SaveForSureAsync();

        var reading = Assert.Single(await shop.Api.AllAsync($"/api/v1/sumps/{Some.SumpTag}/readings?limit=200"));
        Assert.Equal(300, reading.GetProperty("measurements").EnumerateArray().Single(m => m.GetProperty("parameter").GetString() == "level").GetProperty("rawValue").GetDecimal());
        tablet.ExpectNoFaults();
    }

    [Fact]
    public async Task Save_SoundSwitchedOn_TellsStoredFromWarningOnceAndIsOffBefore()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var tablet = await OpenAsync(shop);
        var entry = new EntryPage(tablet);
        await SaveAsync(tablet, entry, "8.0");
        Assert.Equal("", await HeardAsync(tablet));

        await tablet.GoAsync(Enter);
        var button = tablet.Page.GetByRole(AriaRole.Button, new() { Name = Texts.Entry_Signal });
        await Assertions.Expect(button).ToHaveAttributeAsync("aria-pressed", "false");
        await button.ClickAsync();
        await Assertions.Expect(button).ToHaveAttributeAsync("aria-pressed", "true");
        Assert.Equal("80 880Hz ", await HeardAsync(tablet));

        await SaveAsync(tablet, entry, "8.1");
        Assert.Equal("80 880Hz 80 880Hz ", await HeardAsync(tablet));
        await SaveAsync(tablet, entry, "3.0");
        const string All = "80 880Hz 80 880Hz 200-100-200 440Hz 440Hz ";
        Assert.Equal(All, await HeardAsync(tablet));
        await tablet.Page.ReloadAsync();
        await tablet.SettleAsync();
        Assert.Equal(All, await HeardAsync(tablet));
        tablet.ExpectNoFaults();
    }

    private async Task<Visit> OpenAsync(SmallShop shop)
    {
        var tablet = await Visit.OpenAsync(chromium, shop.Server.Address);
        await tablet.Page.AddInitScriptAsync(Listening);
        await SignIn.AsAsync(tablet, "op", SmallShop.Password);
        await tablet.GoAsync(Enter);
        await ReadyAsync(tablet);
        return tablet;
    }

    private static async Task SaveAsync(Visit tablet, EntryPage entry, string brix)
    {
        await entry.OpenAsync(Some.SumpTag);
        await ReadyAsync(tablet);
        await entry.TypeAsync(brix, "9.0", "300");
        await entry.SaveForSureAsync();
        await tablet.Page.WaitForFunctionAsync("() => !sessionStorage.getItem('shopfluids.awaited')");
    }

    // The inside of the sump is 10 to 190 of 200 high.
    private static async Task TapAsync(ILocator picture, float share)
    {
        await picture.ScrollIntoViewIfNeededAsync();
        var box = await picture.BoundingBoxAsync() ?? throw new InvalidOperationException("The picture is not on the page.");
        await picture.ClickAsync(new() { Position = new() { X = box.Width * 0.4f, Y = box.Height * (190 - (180 * share)) / 200 } });
    }

    private static Task<string> HeardAsync(Visit tablet) => tablet.Page.EvaluateAsync<string>("() => localStorage.getItem('heard') ?? ''");

    private static async Task ReadyAsync(Visit tablet) => await tablet.Page.WaitForFunctionAsync("() => 'ready' in document.body.dataset");
}
