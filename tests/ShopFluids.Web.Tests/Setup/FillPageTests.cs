using Bunit;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Setup.Charges;
using ShopFluids.Web.Tests.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

/// <summary>The sump of these tests holds 0.5003 L for each millimetre: 170.102 L at its full mark of 340 mm, 200.12 L at the brim.</summary>
public sealed class FillPageTests
{
    [Fact]
    public async Task Choose_SumpWhoseFullMarkIsNoWholeStep_SaysOneNumberInBoxHintAndSum()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = await PageAsync(desk);

        Assert.Equal("170.1", page.ValueOf("volume"));
        Assert.Contains("170.1 L", page.Find("#f-volume-hint").TextContent, StringComparison.Ordinal);
        Assert.Contains("170.1 L", page.Find("p.sum").TextContent, StringComparison.Ordinal);
    }

    // 170.16 L would be 170.2 L to the nearest step, which was more than was asked for.
    [Fact]
    public async Task Type_Volume_SumFollowsEachKeyAndNeverPassesIt()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = await PageAsync(desk);

        page.Type("volume", "170.16");

        Assert.Contains("170.1 L", page.Find("p.sum").TextContent, StringComparison.Ordinal);
        page.Type("volume", "17");
        Assert.Contains("17.0 L", page.Find("p.sum").TextContent, StringComparison.Ordinal);
    }

    // Of 5,000 L at 99 % the water alone is 50 L: nobody typed that.
    [Fact]
    public async Task Save_VolumeOverTheBrim_TellsTheVolumeThatWasTypedAndTheRoomThereIs()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var page = await PageAsync(desk);
        page.Type("fluid", desk.Shop.FluidId.ToString());
        page.Type("volume", "5000");
        page.Type("percent", "99");

        await page.SaveAsync();

        page.WaitForAssertion(() => Assert.Contains("Volume 5,000 L is over the brim. The accepted range is 0 L to 200.1 L.", page.FaultOf("volume"), StringComparison.Ordinal), SetupDesk.Patience);
        Assert.Equal("5000", page.ValueOf("volume"));
    }

    private static async Task<IRenderedComponent<FillPage>> PageAsync(DeskContext desk)
    {
        await desk.Shop.SumpAsync(Some.Sump(Some.Id(), desk.Shop.AreaId, "S-40", "M-40", shape: new(Core.Sumps.GeometryKind.Rectangular, 1000, 500.3m, 400, 0, [])));
        var page = desk.Render<FillPage>();
        page.WaitForElement("#f-sump", SetupDesk.Patience);
        page.Type("sump", "S-40");
        return page;
    }
}
