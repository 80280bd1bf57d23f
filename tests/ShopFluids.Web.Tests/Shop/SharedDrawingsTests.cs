using System.Globalization;
using Bunit;
using ShopFluids.Core.Rounds;
using ShopFluids.Rules;
using ShopFluids.Web.Components.Shared;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

public sealed class SharedDrawingsTests : BunitContext
{
    [Theory]
    [InlineData(Verdict.InRange, Direction.None, false, "#ok", "v ok")]
    [InlineData(Verdict.Warning, Direction.High, false, "#warn-hi", "v warn")]
    [InlineData(Verdict.Warning, Direction.Low, false, "#warn-lo", "v warn")]
    [InlineData(Verdict.Warning, Direction.None, false, "#warn-hi", "v warn")]
    [InlineData(Verdict.Action, Direction.High, false, "#act-hi", "v act")]
    [InlineData(Verdict.Action, Direction.Low, false, "#act-lo", "v act")]
    [InlineData(Verdict.Action, Direction.None, false, "#act", "v act")]
    [InlineData(Verdict.NotMeasured, Direction.None, false, "#none", "v none")]
    [InlineData(Verdict.InRange, Direction.None, true, "#late", "v late")]
    [InlineData(Verdict.Action, Direction.Low, true, "#act-lo", "v act")]
    public void VerdictTag_EachState_HasItsShapeItsColourAndItsWord(Verdict verdict, Direction direction, bool isLate, string mark, string cssClass)
    {
        var tag = Render(builder => builder.AddContent(0, VerdictTag.Of("The <word>", verdict, direction, isLate)));

        var span = tag.Find("span");
        Assert.Equal(cssClass, span.ClassName);
        Assert.Equal("The <word>", span.TextContent);
        Assert.Equal(mark, tag.Find("use").GetAttribute("href"));
        Assert.Equal("true", tag.Find("svg").GetAttribute("aria-hidden"));
    }

    [Fact]
    public void IconSprite_EveryMarkOfAVerdict_IsInIt()
    {
        var sprite = Render<IconSprite>();
        var symbols = from verdict in Enum.GetValues<Verdict>() from direction in Enum.GetValues<Direction>() from isLate in new[] { false, true } select VerdictLook.Symbol(verdict, direction, isLate);

        Assert.All(symbols.Distinct(), id => Assert.NotNull(sprite.Find($"symbol#{id}")));
    }

    [Fact]
    public void StepGauge_GermanCulture_DrawsInPointsAndLabelsAsTold()
    {
        var before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
        try
        {
            var gauge = Render<StepGauge>(p => p
                .Add(g => g.Limits, new GaugeLimits(5.5m, 6.5m, 7, 9, 9.5m, 10.5m))
                .Add(g => g.Now, 8.4m)
                .Add(g => g.Write, v => v.ToString("0.0", CultureInfo.GetCultureInfo("de-DE")))
                .Add(g => g.Label, "Target 7,0 to 9,0 %, now 8,4 %"));

            Assert.Equal("img", gauge.Find("svg").GetAttribute("role"));
            Assert.Equal("Target 7,0 to 9,0 %, now 8,4 %", gauge.Find("svg").GetAttribute("aria-label"));
            Assert.Equal("158.3", gauge.Find("rect.g-t").GetAttribute("x"));
            Assert.StartsWith("M244.7 34", gauge.Find("path.g-now").GetAttribute("d"), StringComparison.Ordinal);
            Assert.Contains("7,0", gauge.Markup, StringComparison.Ordinal);
            Assert.DoesNotContain("style=", gauge.Markup, StringComparison.Ordinal);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void SightGlass_LevelUnknown_IsAnEmptyTubeWithItsMarks()
    {
        var glass = Render<SightGlass>(p => p.Add(g => g.FullMark, 0.88).Add(g => g.PumpIntake, 0.3).Add(g => g.Label, "Level not measured"));

        Assert.Empty(glass.FindAll("rect.glass-fluid"));
        Assert.Equal("12.1", glass.Find("line.glass-full").GetAttribute("y1"));
        Assert.Equal("56.2", glass.Find("line.glass-in").GetAttribute("y1"));
    }

    [Fact]
    public void SightGlass_EightTenths_StandsAtEightTenths()
    {
        var glass = Render<SightGlass>(p => p.Add(g => g.Now, 0.8).Add(g => g.FullMark, 0.88).Add(g => g.PumpIntake, 0.3).Add(g => g.Label, "Level 80 % of the brim"));

        Assert.Equal("18.2", glass.Find("rect.glass-fluid").GetAttribute("y"));
        Assert.Equal("60.3", glass.Find("rect.glass-fluid").GetAttribute("height"));
    }
}
