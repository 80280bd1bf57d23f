using System.Text;
using ShopFluids.Web.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

public sealed class DrawnPageTests
{
    [Theory]
    [InlineData("<b id=17>17 mm, at 400</b>", "<b id=2>2 mm, at 12345</b>")]
    [InlineData("17400", "212345")]
    [InlineData("40017 é 400", "123452 é 12345")]
    public void With_OtherPlaces_FillsEachOfThem(string drawn, string expected)
    {
        var page = new DrawnPage(Encoding.UTF8.GetBytes(drawn), "17", "400");

        Assert.Equal(expected, Encoding.UTF8.GetString(page.With("2", "12345")));
        Assert.Equal(drawn, Encoding.UTF8.GetString(page.With("17", "400")));
    }

    // The next reader would send under this one's id.
    [Theory]
    [InlineData("18")]
    [InlineData("")]
    public void Constructor_PlaceIsNotInThePage_Throws(string place) =>
        Assert.Throws<ArgumentException>(() => new DrawnPage(Encoding.UTF8.GetBytes("<b id=17>"), "17", place));
}
