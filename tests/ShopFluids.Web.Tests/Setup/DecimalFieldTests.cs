using System.Globalization;
using Bunit;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

public sealed class DecimalFieldTests
{
    [Theory]
    [InlineData("8,9", "8.9")]
    [InlineData("8.9", "8.9")]
    [InlineData(" 12 ", "12")]
    [InlineData("1,200", "1.2")]
    public async Task Input_CommaOrPoint_ReadsTheSameNumber(string typed, string expected)
    {
        await using var desk = await SetupDesk.OpenAsync();
        var box = new NumberBox();
        var field = Field(desk, await desk.WordsAsync(), box);

        await field.Find("input").InputAsync(new ChangeEventArgs { Value = typed });

        Assert.Equal(decimal.Parse(expected, CultureInfo.InvariantCulture), box.Value(UnitSystem.Metric));
        Assert.Equal(typed, field.Find("input").GetAttribute("value"));
    }

    [Fact]
    public async Task Input_CouldMeanThousands_SaysHowItIsRead()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var field = Field(desk, await desk.WordsAsync(), new NumberBox(QuantityKind.Length));

        await field.Find("input").InputAsync(new ChangeEventArgs { Value = "1,200" });

        Assert.Equal("Read as 1.2 mm.", field.Find("[role=status]").TextContent);
        Assert.Contains("f-test-echo", field.Find("input").GetAttribute("aria-describedby"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Input_Plain_SaysNothing()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var field = Field(desk, await desk.WordsAsync(), new NumberBox());

        await field.Find("input").InputAsync(new ChangeEventArgs { Value = "0.125" });

        Assert.Empty(field.FindAll("[role=status]"));
    }

    [Fact]
    public async Task Render_UsUnits_TakesInchesAndKeepsMillimetres()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var metric = await desk.WordsAsync();
        var format = new ShopFormat(metric.Format.Culture, UnitSystem.UsCustomary, metric.Format.Calendar);
        var box = new NumberBox(QuantityKind.Length);
        var field = Field(desk, metric with { Format = format, Sentences = new Sentences(format, metric.Setup) }, box);

        await field.Find("input").InputAsync(new ChangeEventArgs { Value = "12" });

        Assert.Equal(304.8m, box.Value(UnitSystem.UsCustomary));
        Assert.Equal("in", field.Find("#f-test-unit").TextContent);
    }

    [Fact]
    public async Task Show_LeftAlone_ReadsBackTheKeptValueWhateverWasShown()
    {
        await using var desk = await SetupDesk.OpenAsync();
        var metric = await desk.WordsAsync();
        var box = new NumberBox(QuantityKind.Length);

        box.Show(250, new ShopFormat(metric.Format.Culture, UnitSystem.UsCustomary, metric.Format.Calendar));

        Assert.Equal("9.843", box.Text);
        Assert.Equal(250, box.Value(UnitSystem.UsCustomary));
    }

    private static IRenderedComponent<DecimalField> Field(BunitContext desk, DeskWords words, NumberBox box)
    {
        var form = new FormState("f", () => { }) { Words = words };
        return desk.Render<DecimalField>(p => p.AddCascadingValue(form).Add(f => f.Name, "test").Add(f => f.Label, "Length").Add(f => f.Box, box));
    }
}
