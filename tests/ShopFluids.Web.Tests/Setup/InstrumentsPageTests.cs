using Bunit;
using ShopFluids.Core.Instruments;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Setup.Basics;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

public sealed class InstrumentsPageTests
{
    [Fact]
    public async Task Page_MeterAndStrip_OffersTheCheckOfTheMeterAlone()
    {
        await using var desk = await SetupDesk.OpenAsync();
        await desk.Shop.InstrumentAsync(Some.Refractometer());
        await desk.Shop.InstrumentAsync(new(Some.Id(), "PS-1", InstrumentKind.PhStrips, 0.1m, 0.2m, false, null));

        var page = desk.Render<InstrumentsPage>();

        page.WaitForElement("td.ways a", SetupDesk.Patience);
        var link = Assert.Single(page.FindAll("td.ways a.btn"));
        Assert.Equal(("instruments/R-1", "Check R-1"), (link.GetAttribute("href"), link.TextContent));
        Assert.Equal(["setup/instruments/PS-1", "setup/instruments/R-1"], page.FindAll("td.ways a:not(.btn)").Select(a => a.GetAttribute("href")));
    }

    [Fact]
    public async Task Save_WithDaysBetweenChecks_KeepsThem()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = desk.Render<InstrumentsPage>();
        page.WaitForElement("form", SetupDesk.Patience);
        page.Type("kind", nameof(InstrumentKind.PhMeter));
        page.Type("tag", "P-9");
        page.Type("resolution", "0.01");
        page.Type("accuracy", "0.05");
        page.Type("checkEveryDays", "14");

        await page.SaveAsync();

        page.WaitForAssertion(() => Assert.Contains("14 days", page.Find("tbody tr").TextContent, StringComparison.Ordinal), SetupDesk.Patience);
        Assert.Equal(14, Assert.Single((await desk.Shop.SetupAsync()).Instruments).CheckEveryDays);
    }
}
