using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Bench;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Bench;

public sealed class CalculatorPageTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    [Fact]
    public async Task Render_ForASump_FillsInItsNumbersAndDrawsThem()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(brix: 7.5m, levelMm: 300));

        var page = Open(desk, "top-up", "?sump=S-07");

        Assert.Equal("150", page.Find("#b-volumeLitres").GetAttribute("value"));
        Assert.Contains("S-07", page.Find(".bh .dim").TextContent, StringComparison.Ordinal);
        Assert.Equal("from S-07", page.Find("#b-volumeLitres-hint").TextContent);
        Assert.Empty(page.FindAll("#b-measurableLitres-hint"));
        Assert.Contains("150.0 L at 7.5 %", page.Find("svg[role=img]").GetAttribute("aria-label"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_SumpThatFillsInNothing_SaysThatTheNumbersAreAnExample()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.SumpAsync(Some.Sump(Some.Id(), desk.Shop.AreaId, "S-01", "M-01", shape: new(GeometryKind.StrappingTable, 0, 0, 400, 0, [new(0, 0), new(400, 200)])));

        var page = Open(desk, "sump-volume", "?sump=S-01");

        Assert.Contains("the numbers are an example", page.Find(".bh .dim").TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain("from S-01", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Type_OverANumberOfTheSump_IsNotTheSumpsAnyMore()
    {
        await using var desk = await DeskContext.OpenAsync();
        await desk.Shop.StoreAsync(Some.Reading(levelMm: 300));
        var page = Open(desk, "turnovers", "?sump=S-07");
        Assert.Equal("from S-07", page.Find("#b-volumeLitres-hint").TextContent);

        await page.Find("#b-volumeLitres").InputAsync(new ChangeEventArgs { Value = "151" });

        Assert.Empty(page.FindAll("#b-volumeLitres-hint"));
    }

    [Fact]
    public async Task Type_AnotherNumber_ChangesResultAndAddress()
    {
        await using var desk = await DeskContext.OpenAsync();
        var page = Open(desk, "fresh-mix", "");
        Assert.Equal("18.4", page.Find(".res .big b").TextContent);

        await page.Find("#b-volumeLitres").InputAsync(new ChangeEventArgs { Value = "10" });

        Assert.Equal("9.2", page.Find(".res .big b").TextContent);
        Assert.EndsWith("/bench/fresh-mix?volumeLitres=10&percent=8&measurableLitres=0.1", desk.Services.GetRequiredService<NavigationManager>().Uri, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Type_NumberOutOfRange_SaysItAtTheFieldAndKeepsIt()
    {
        await using var desk = await DeskContext.OpenAsync();
        var page = Open(desk, "fresh-mix", "");

        await page.Find("#b-percent").InputAsync(new ChangeEventArgs { Value = "140" });

        var box = page.Find("#b-percent");
        Assert.Equal(("140", "true"), (box.GetAttribute("value"), box.GetAttribute("aria-invalid")));
        Assert.Contains("100 %", page.Find("#b-percent-fault").TextContent, StringComparison.Ordinal);
        Assert.Contains(Texts.Bench_NotWorkedOut, page.Find(".res").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_UnknownCalculator_ShowsTheWayToTheBench()
    {
        await using var desk = await DeskContext.OpenAsync();
        desk.Services.GetRequiredService<NavigationManager>().NavigateTo("bench/horoscope");

        var page = desk.Render<CalculatorPage>(p => p.Add(c => c.Code, "horoscope"));

        Assert.Equal("bench", page.WaitForElement("section.state a", Patience).GetAttribute("href"));
    }

    [Fact]
    public async Task Render_RunDry_DrawsThePumpInTheSumpAndTheBarsBesideIt()
    {
        await using var desk = await DeskContext.OpenAsync();

        var page = Open(desk, "run-dry", "");

        Assert.Single(page.FindAll("svg[role=img] .p-pump"));
        var words = page.FindAll("svg[role=img] text").Select(t => t.TextContent).ToList();
        Assert.Contains("stopped 313 mm", words);
        Assert.Contains("In flight: 45.7 L", words);
        Assert.Contains("14.0 L", words);
    }

    private static IRenderedComponent<CalculatorPage> Open(DeskContext desk, string code, string query)
    {
        desk.Services.GetRequiredService<NavigationManager>().NavigateTo($"bench/{code}{query}");
        var page = desk.Render<CalculatorPage>(p => p.Add(c => c.Code, code));
        page.WaitForElement(".bench", Patience);
        return page;
    }
}
