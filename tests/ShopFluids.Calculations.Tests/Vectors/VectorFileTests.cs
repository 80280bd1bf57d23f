using System.Globalization;
using ShopFluids.Calculations.Concentrations;
using Xunit;

namespace ShopFluids.Calculations.Tests.Vectors;

/// <summary>Neither the check values nor the messages may change with the machine's culture: 1.6 is never 16, and 0.5 is never "0,5".</summary>
public sealed class VectorFileTests
{
    [Theory]
    [InlineData("de-DE")]
    [InlineData("en-US")]
    public void Rows_UnderAnyCulture_GiveTheSameNumbers(string culture)
    {
        var before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
        try
        {
            var row = VectorFile.Rows("refractometer_examples")[3];
            Assert.Equal([3.6, 0.2, 1.8, 6.12], row[..4].Select(VectorFile.Number));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Theory]
    [InlineData("de-DE")]
    [InlineData("en-US")]
    public void Message_UnderAnyCulture_IsTheSame(string culture)
    {
        var before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
        try
        {
            var error = Assert.Throws<ArgumentOutOfRangeException>(() => Refractometry.Percent(0.2, 0.5, 1.5));
            Assert.StartsWith("Accepted are 0.5 to 31 Brix", error.Message, StringComparison.Ordinal);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
