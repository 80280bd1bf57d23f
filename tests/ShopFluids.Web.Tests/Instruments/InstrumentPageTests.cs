using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Instruments;
using ShopFluids.Web.Tests.Layout;
using ShopFluids.Web.Tests.Setup;
using Xunit;

namespace ShopFluids.Web.Tests.Instruments;

public sealed class InstrumentPageTests
{
    [Fact]
    public async Task Save_RefractometerWithinItsAccuracy_PassesAndIsListed()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk, "R-1");
        Assert.Contains(Texts.Instrument_NoneStands, page.Find(".bh").TextContent, StringComparison.Ordinal);
        page.Type("firstShown", "0,1");

        await page.SaveAsync();

        page.WaitForAssertion(() => Assert.Contains("R-1 passed; its check is noted.", page.Markup, StringComparison.Ordinal), SetupDesk.Patience);
        Assert.Contains("Its check holds until 9 Mar 2026.", page.Find(".bh").TextContent, StringComparison.Ordinal);
        var row = page.Find("table.list tbody tr").TextContent;
        Assert.Contains("0: shown 0.1 Brix", row, StringComparison.Ordinal);
        Assert.Contains(Texts.Instrument_Pass, row, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Save_MeterThatIsOff_FailsAndSaysWhatToDo()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk, "P-1");
        page.Type("firstStandard", "7.00");
        page.Type("firstShown", "7.30");

        await page.SaveAsync();

        page.WaitForAssertion(() => Assert.Contains("P-1 failed and counts as not checked.", page.Markup, StringComparison.Ordinal), SetupDesk.Patience);
        Assert.Contains(Texts.Instrument_Fail, page.Find("table.list tbody tr").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Save_BufferWithoutAReading_AsksForItAndNotesNothing()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk, "P-1");
        page.Type("firstStandard", "7.00");

        await page.SaveAsync();

        page.WaitForAssertion(() => Assert.Contains(Texts.FieldName_FirstShown, page.Find("[role=alert]").TextContent, StringComparison.Ordinal), SetupDesk.Patience);
        Assert.Empty(page.FindAll("table.list"));
    }

    [Fact]
    public async Task Save_InMillivoltsWithoutTemperature_NamesTheFieldAndKeepsWhatWasTyped()
    {
        await using var desk = await OpenAsync();
        var page = Page(desk, "P-1");
        page.Type("shows", "mv");
        page.Type("firstStandard", "7.01");
        page.Type("firstShown", "-15");
        page.Type("secondStandard", "4.01");
        page.Type("secondShown", "160");

        await page.SaveAsync();

        page.WaitForAssertion(() => Assert.Contains(Texts.FieldName_StandardsCelsius, page.Find("[role=alert]").TextContent, StringComparison.Ordinal), SetupDesk.Patience);
        Assert.Contains("160", page.FindAll("input").Select(i => i.GetAttribute("value")));
        Assert.Empty(page.FindAll("table.list"));
    }

    [Fact]
    public async Task Render_UnknownTag_SaysSo()
    {
        await using var desk = await OpenAsync();

        var page = desk.Render<InstrumentPage>(p => p.Add(i => i.Tag, "X-9"));

        page.WaitForAssertion(() => Assert.Contains(Texts.Error_InstrumentNotFound, page.Markup, StringComparison.Ordinal), SetupDesk.Patience);
    }

    private static async Task<DeskContext> OpenAsync()
    {
        var desk = await SetupDesk.OpenAsync();
        desk.Services.AddSingleton(desk.Shop.Get<InstrumentChecksQuery>());
        await desk.Shop.InstrumentAsync(Some.Refractometer() with { CheckedOn = null });
        await desk.Shop.InstrumentAsync(new(Some.Id(), "P-1", InstrumentKind.PhMeter, 0.01m, 0.05m, true, null));
        return desk;
    }

    private static IRenderedComponent<InstrumentPage> Page(DeskContext desk, string tag)
    {
        var page = desk.Render<InstrumentPage>(p => p.Add(i => i.Tag, tag));
        page.WaitForElement("form", SetupDesk.Patience);
        return page;
    }
}
