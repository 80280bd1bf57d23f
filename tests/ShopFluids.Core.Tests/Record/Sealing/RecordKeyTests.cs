using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Sealing;
using Xunit;

namespace ShopFluids.Core.Tests.Record.Sealing;

public sealed class RecordKeyTests
{
    private const string Secret = "0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b";
    private const string Hash = RecordEntry.FirstPreviousHash;

    [Fact]
    public void Make_TwoKeys_DifferAndAreReadAgain()
    {
        var (first, second) = (RecordKey.Make(new(12, Hash)), RecordKey.Make(new(12, Hash)));

        Assert.NotEqual(first.Id, second.Id);
        Assert.True(RecordKey.TryParse(first.ToSecretText() + "\n", out var again));
        Assert.Equal((first.Id, first.Since, first.Seal(Hash)), (again.Id, again.Since, again.Seal(Hash)));
        Assert.DoesNotContain(first.Id, first.ToSecretText(), StringComparison.Ordinal);
    }

    // Both worked out by Python's hashlib and hmac.
    [Fact]
    public void Seal_KnownKey_IsHmacSha256OfTheHash()
    {
        Assert.True(RecordKey.TryParse(Secret, out var key));

        Assert.Equal("f0e38b830ebd8a50", key.Id);
        Assert.Equal("066b0597958b9f1d9b8e64c9e0df793649c91d13d78326dab7f4800e25745a72", key.Seal(Hash));
    }

    [Fact]
    public void TryParse_KeyAlone_SealsFromTheFirstEntryOn()
    {
        Assert.True(RecordKey.TryParse(Secret.ToUpperInvariant(), out var key));

        Assert.Equal(RecordFingerprint.OfNothing, key.Since);
        Assert.True(key.BeginsAt(RecordFingerprint.OfNothing));
        Assert.False(key.BeginsAt(new(1, Hash)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("0b0b")]
    [InlineData(Secret + "00")]
    [InlineData("x" + Secret)]
    [InlineData(Secret + " since ")]
    [InlineData(Secret + " since 12")]
    [InlineData(Secret + " from 12:" + Hash)]
    public void TryParse_AnythingElse_IsRefused(string text) => Assert.False(RecordKey.TryParse(text, out _));

    [Fact]
    public void HasSealed_OnlyItsOwnSealOfThatHash()
    {
        var key = RecordKey.Make(RecordFingerprint.OfNothing);
        var seal = key.Seal(Hash);

        Assert.True(key.HasSealed(Hash, seal));
        Assert.False(key.HasSealed(Hash, null));
        Assert.False(key.HasSealed(Hash, ""));
        Assert.False(key.HasSealed(Hash, seal[..63]));
        Assert.False(key.HasSealed(Hash, seal.ToUpperInvariant()));
        Assert.False(key.HasSealed(Secret, seal));
        Assert.False(RecordKey.Make(RecordFingerprint.OfNothing).HasSealed(Hash, seal));
    }
}
