using System.Text.RegularExpressions;
using ShopFluids.Core.Sumps;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

/// <summary>The sump drawn on the entry page, in its shape and with a scale, for tapping the level.</summary>
public sealed partial class LevelPictureTests
{
    private const string ByTable = "S-30";
    private const int MostBytes = 4000;

    [Fact]
    public async Task Get_RectangularSump_HasAScaleItsMarksAndTheFilledPart()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StoreAsync(Some.Reading(levelMm: 300)));

        var picture = PictureOf((await host.GetAsync("/enter/S-07")).Html);

        Assert.Contains("data-brim=\"400\"", picture, StringComparison.Ordinal);
        Assert.Contains("data-box=\"value-level\"", picture, StringComparison.Ordinal);
        Assert.Equal(["0 mm", "100", "200", "300", "400", "full mark", "pump intake"], Words().Matches(picture).Select(m => m.Groups["text"].Value));

        // 180 units for 400 mm: the fluid ends at 300 mm, the full mark is at 340.
        Assert.Matches("class=\"lv-fluid\" d=\"[^\"]* 55L", picture);
        Assert.Contains("y1=\"37\" y2=\"37\"", picture, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", picture, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_SumpByATable_IsDrawnInItsShapeAndStaysLight()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            var shape = new SumpShape(GeometryKind.StrappingTable, 0, 0, 350, 0, [new(0, 0), new(100, 20), new(200, 80), new(350, 230)]);
            await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, ByTable, "M-30", shape: shape));
            (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, ByTable))).Done();
        });

        var picture = PictureOf((await host.GetAsync($"/enter/{ByTable}")).Html);

        // 20 L in the lowest 100 mm, 100 L in the highest: a fifth as wide at the bottom as at the brim.
        var bottom = Numbers().Matches(WallOf(picture)).Select(m => double.Parse(m.Groups["x"].Value, System.Globalization.CultureInfo.InvariantCulture)).ToList();
        Assert.Equal(150 + 3, bottom.Max() - bottom.Min(), 0.5);
        Assert.InRange(bottom.Count(x => x is > 120 and < 160), 10, 80);
        Assert.InRange(picture.Length, 1, MostBytes);
    }

    [Fact]
    public async Task Post_LevelTyped_StandsOnThePicture()
    {
        await using var host = await ShopHost.OpenAsync();

        var asked = await host.PostAsync("/enter/S-07", new() { ["value-concentration"] = "30", ["value-ph"] = "9.0", ["value-level"] = "200" });

        Assert.Matches("class=\"lv-now\"[^>]*translate\\(0 100\\)", PictureOf(asked.Html));
        Assert.Matches("class=\"lv-now\"[^>]*hidden", PictureOf((await host.GetAsync("/enter/S-07")).Html));
    }

    private static string PictureOf(string html)
    {
        var picture = Picture().Match(html);
        Assert.True(picture.Success, "The page has no picture of the sump.");
        return picture.Value;
    }

    private static string WallOf(string picture) => Wall().Match(picture).Groups["d"].Value;

    [GeneratedRegex("<svg class=\"lv\".*?</svg>", RegexOptions.Singleline, 1000)]
    private static partial Regex Picture();

    [GeneratedRegex("<text[^>]*>(?<text>[^<]+)</text>", RegexOptions.None, 1000)]
    private static partial Regex Words();

    [GeneratedRegex("class=\"lv-wall\" d=\"(?<d>[^\"]+)\"", RegexOptions.None, 1000)]
    private static partial Regex Wall();

    [GeneratedRegex("[ML](?<x>[0-9.]+) ", RegexOptions.None, 1000)]
    private static partial Regex Numbers();
}
