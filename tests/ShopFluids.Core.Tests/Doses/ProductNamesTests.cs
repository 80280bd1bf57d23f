using ShopFluids.Core.Doses;
using Xunit;

namespace ShopFluids.Core.Tests.Doses;

public sealed class ProductNamesTests
{
    [Theory]
    [InlineData("Biocide B-20", true)]
    [InlineData(" biocide  B-20\t", true)]
    [InlineData("BIOCIDE\u00a0B-20", true)]
    [InlineData("\uff22iocide B-\uff12\uff10", true)]
    [InlineData("Biocide B-20\u2009", true)]
    [InlineData("Biocide B-2O", false)]
    [InlineData("Biocide B20", false)]
    [InlineData("Biocide B-20 plus", false)]
    public void KeyOf_OtherSpelling_IsTheSameWhereOnlySpacesCapitalsAndFormsDiffer(string spelling, bool isSame) =>
        Assert.Equal(isSame, ProductNames.KeyOf(spelling) == ProductNames.KeyOf("Biocide B-20"));

    [Fact]
    public void KeyOf_HalfOfASurrogatePair_IsLeftToTheCheckOfTexts() => Assert.Equal("a\ud800", ProductNames.KeyOf("a\ud800"));

    [Fact]
    public void Kept_SpacesOfAnyKind_BecomeOneAndNothingElseChanges() => Assert.Equal("Biocide B\u00b2 20", ProductNames.Kept("  Biocide\u00a0 B\u00b2\n20 "));
}
