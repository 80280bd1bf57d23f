using System.Globalization;
using ShopFluids.Core.Wording;
using Xunit;

namespace ShopFluids.Core.Tests.Wording;

/// <summary>What is typed into a box, whatever the culture.</summary>
public sealed class NumberInputTests
{
    [Theory]
    [InlineData("8.9", 8.9)]
    [InlineData("8,9", 8.9)]
    [InlineData(" 8,90 ", 8.9)]
    [InlineData("0", 0)]
    [InlineData("-1.5", -1.5)]
    [InlineData("\u22121,5", -1.5)]
    [InlineData("1 234,5", 1234.5)]
    [InlineData("1\u00a0234", 1234)]
    [InlineData(",5", 0.5)]
    [InlineData("5.", 5)]
    public void TryRead_Number_IsReadTheSameInAnyCulture(string text, double expected)
    {
        foreach (var culture in new[] { "en-GB", "de-DE", "en-US" })
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
            Assert.True(NumberInput.TryRead(text, out var value));
            Assert.Equal((decimal)expected, value);
        }
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("  ")]
    [InlineData("abc")]
    [InlineData("8.9 Brix")]
    [InlineData("1.234,5")]
    [InlineData("1,234.5")]
    [InlineData("1.2.3")]
    [InlineData("1e3")]
    [InlineData("+-1")]
    [InlineData("NaN")]
    [InlineData("0x10")]
    [InlineData("123456789012345678901")]
    [InlineData(",")]
    public void TryRead_NoNumber_IsRefused(string? text)
    {
        Assert.False(NumberInput.TryRead(text, out var value));
        Assert.Equal(0, value);
    }

    [Theory]
    [InlineData("12", QuantityKind.Length, 304.8)]
    [InlineData("1", QuantityKind.Volume, 3.785412)]
    [InlineData("68", QuantityKind.Temperature, 20)]
    [InlineData("10", QuantityKind.Hardness, 171.18061)]
    [InlineData("8,9", QuantityKind.Number, 8.9)]
    public void TryRead_UsUnits_AreKeptInCanonicalOnes(string text, QuantityKind kind, double expected)
    {
        Assert.True(QuantityInput.TryRead(text, kind, UnitSystem.UsCustomary, out var value));
        Assert.Equal((decimal)expected, value);
    }

    [Theory]
    [InlineData(QuantityKind.Length, 304.8)]
    [InlineData(QuantityKind.Volume, 150)]
    [InlineData(QuantityKind.Temperature, 24)]
    [InlineData(QuantityKind.Number, 8.95)]
    public void Write_ThenRead_GivesTheValueBack(QuantityKind kind, double canonical)
    {
        foreach (var units in Enum.GetValues<UnitSystem>())
        {
            foreach (var culture in new[] { "en-GB", "de-DE", "en-US" })
            {
                var text = QuantityInput.Write((decimal)canonical, kind, units, CultureInfo.GetCultureInfo(culture));
                Assert.True(QuantityInput.TryRead(text, kind, units, out var back));
                Assert.Equal(canonical, (double)back, 0.002);
            }
        }
    }

    [Fact]
    public void TryRead_HugeNumber_IsRefusedNotOverflown() =>
        Assert.False(QuantityInput.TryRead("99999999999999999999", QuantityKind.Length, UnitSystem.UsCustomary, out _));
}
