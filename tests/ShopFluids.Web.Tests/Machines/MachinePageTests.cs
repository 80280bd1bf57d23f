using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Layout;
using ShopFluids.Web.Tests.Setup;
using Xunit;

namespace ShopFluids.Web.Tests.Machines;

public sealed class MachinePageTests
{
    [Fact]
    public async Task Render_Machine_ShowsHowItsSumpStandsAndWhatWasInIt()
    {
        await using var desk = await OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 4.0m));

        var page = Page(desk, "M-07");

        Assert.StartsWith("M-07", page.Find("h1").TextContent, StringComparison.Ordinal);
        var row = page.Find("table.b tbody tr");
        Assert.Contains("action limit", row.TextContent, StringComparison.Ordinal);
        Assert.Equal("sumps/S-07", row.QuerySelector("a")?.GetAttribute("href"));
        Assert.Equal($"stores/lots/{desk.Shop.LotId}", page.Find("[aria-labelledby=lots-title] p a").GetAttribute("href"));
        Assert.Equal("sheets/machines/M-07/history.pdf", page.Find(".benchacts a").GetAttribute("href"));
        Assert.DoesNotContain(Texts.Machine_Shared, page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_UnknownMachine_SaysSoWithAWayOn()
    {
        await using var desk = await OpenAsync();

        var page = Page(desk, "M-99");

        Assert.Contains("M-99", page.Find("h1").TextContent, StringComparison.Ordinal);
        Assert.Equal("sumps", page.Find("a.btn").GetAttribute("href"));
    }

    private static async Task<DeskContext> OpenAsync()
    {
        var desk = await SetupDesk.OpenAsync();
        desk.Services.AddSingleton(desk.Shop.Get<LotTraceQuery>());
        desk.Services.AddSingleton<MachinePageQuery>();
        return desk;
    }

    private static IRenderedComponent<Pages.Machines.MachinePage> Page(DeskContext desk, string tag)
    {
        var page = desk.Render<Pages.Machines.MachinePage>(p => p.Add(m => m.Tag, tag));
        page.WaitForElement("h1", SetupDesk.Patience);
        return page;
    }
}
