using System.Globalization;
using ShopFluids.Core.Record.Sealing;
using Xunit;

namespace ShopFluids.Core.Tests.Record.Sealing;

public sealed class RecordFingerprintTests
{
    private const string Hash = "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08";

    // As the foot of a sheet groups it, as a page shortens it, as somebody types it.
    [Theory]
    [InlineData("1204:" + Hash, Hash)]
    [InlineData("1204:9f86 d081 884c 7d65 · 9a2f eaa0 c55a d015 · a3bf 4f1b 2b0b 822c · d15d 6c15 b0f0 0a08", Hash)]
    [InlineData("1204: 9F86 D081 884C", "9f86d081884c")]
    [InlineData(" 1204:9f86d081884c… ", "9f86d081884c")]
    [InlineData("1204:9f86d081", "9f86d081")]
    public void TryParse_FormsOfTheHash_ReadsThem(string text, string hash)
    {
        Assert.True(RecordFingerprint.TryParse(text, out var fingerprint));
        Assert.Equal(new RecordFingerprint(1204, hash), fingerprint);
    }

    [Theory]
    [InlineData("en-GB")]
    [InlineData("de-DE")]
    [InlineData("de-CH")]
    [InlineData("fr-FR")]
    [InlineData("en-IN")]
    public void TryParse_CountAsTheSheetPrintsIt_ReadsIt(string culture)
    {
        var printed = 1234567.ToString("N0", CultureInfo.GetCultureInfo(culture));

        Assert.True(RecordFingerprint.TryParse($"{printed}:{Hash}", out var fingerprint));
        Assert.Equal(1234567, fingerprint.Count);
    }

    [Theory]
    [InlineData("")]
    [InlineData("1204")]
    [InlineData(Hash)]
    [InlineData(":" + Hash)]
    [InlineData("-1:" + Hash)]
    [InlineData("12x4:" + Hash)]
    [InlineData("1204:")]
    [InlineData("1204:9f86d08")]
    [InlineData("1204:9f86d08g")]
    [InlineData("1204:" + Hash + "0")]
    [InlineData("99999999999999999999:" + Hash)]
    public void TryParse_AnythingElse_IsRefused(string text) => Assert.False(RecordFingerprint.TryParse(text, out _));

    [Fact]
    public void ToString_IsReadAgain()
    {
        Assert.True(RecordFingerprint.TryParse(new RecordFingerprint(7, Hash).ToString(), out var again));
        Assert.Equal(new RecordFingerprint(7, Hash), again);
    }

    [Fact]
    public void Fits_TheBeginningOfTheHashAndNothingElse()
    {
        Assert.True(new RecordFingerprint(7, Hash[..8]).Fits(Hash));
        Assert.True(default(RecordFingerprint).Fits(Hash));
        Assert.False(new RecordFingerprint(7, Hash[1..9]).Fits(Hash));
    }
}
