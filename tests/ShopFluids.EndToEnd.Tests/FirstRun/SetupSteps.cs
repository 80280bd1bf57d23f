using Microsoft.Playwright;
using ShopFluids.Core.Fluids;
using ShopFluids.EndToEnd.Tests.Browser;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.FirstRun;

/// <summary>The set-up forms in the hands of a supervisor.</summary>
internal sealed class SetupSteps(Visit visit)
{
    private readonly IPage _page = visit.Page;

    public async Task<ILocator> OpenAsync(string path)
    {
        await visit.GoAsync(path);
        return _page.Locator("form.setform");
    }

    public Task SaveFluidAsync() => SaveAsync(
        "/setup/fluids/new",
        "Emulsion 50",
        ("name", "Emulsion 50"),
        ("kind", nameof(FluidKind.SolubleOil)),
        ("refractometerFactor", "1.2"),
        ("shelfLifeDays", "365"),
        ("targetLow", "6"),
        ("targetHigh", "9"),
        ("targetPercent", "7.5"),
        ("premixMinimum", "1"),
        ("premixMaximum", "15"));

    /// <summary>Fills the fields and saves; the name must then stand in a table or a message of the page.</summary>
    public async Task SaveAsync(string path, string shownAfterwards, params (string Field, string Value)[] fields)
    {
        await OpenAsync(path);
        foreach (var (field, value) in fields)
        {
            var box = _page.Locator($"[id='f-{field}']");
            if (await box.EvaluateAsync<string>("e => e.tagName") == "SELECT")
            {
                await box.SelectOptionAsync(value);
            }
            else
            {
                await box.FillAsync(value);
                await box.PressAsync("Tab");
            }
        }

        await _page.Locator("form.setform button[type=submit]").ClickAsync();
        await Assertions.Expect(_page.Locator("main th, main .said").Filter(new() { HasText = shownAfterwards }).First).ToBeVisibleAsync();
        Assert.Equal(0, await _page.Locator("section.faults").CountAsync());
    }
}
