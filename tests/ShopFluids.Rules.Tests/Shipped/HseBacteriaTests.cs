using System.Globalization;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests.Shipped;

/// <summary>HSE (UK), metalworking fluids, bacterial contamination: the current page, and that of 2006 to 2012.</summary>
public sealed class HseBacteriaTests
{
    public static TheoryData<string, string, string> Examples =>
        new(Vector.Rows("bacteria_band_examples.csv").Select(r => (r[0], r[1], r[2])));

    public static TheoryData<string, string, string, string> Bands =>
        new(Vector.Rows("bacteria_bands.csv").Select(r => (r[0], r[1], r[2], r[3])));

    [Theory, MemberData(nameof(Examples))]
    public void Judge_PublishedExample_FallsInItsBand(string cfuPerMl, string current, string of2006)
    {
        var exponent = Exponent(cfuPerMl);

        Assert.Equal(VerdictOf(current), Judge(exponent, BacteriaBands.Current));
        Assert.Equal(VerdictOf(of2006), Judge(exponent, BacteriaBands.Of2006));
    }

    [Theory, MemberData(nameof(Bands))]
    public void Judge_BoundsOfABand_LowerIsInItUpperIsNot(string scheme, string lowCfu, string highCfu, string label)
    {
        var bands = scheme == "HSE-current" ? BacteriaBands.Current : BacteriaBands.Of2006;

        Assert.Equal(VerdictOf(label), Judge(Exponent(lowCfu), bands));
        if (highCfu.Length > 0)
        {
            Assert.Equal(VerdictOf(label), Judge(Exponent(highCfu) - 0.0001m, bands));
            Assert.NotEqual(VerdictOf(label), Judge(Exponent(highCfu), bands));
        }
    }

    private static Verdict? Judge(decimal exponent, BacteriaBands bands) => LimitRow.Judge(exponent, HseBacteria.For(bands).Limits)?.Verdict;

    // A slide without growth is entered as 10^0.
    private static decimal Exponent(string cfuPerMl) =>
        (decimal)Math.Log10(Math.Max(1, double.Parse(cfuPerMl, CultureInfo.InvariantCulture)));

    private static Verdict VerdictOf(string label) => label switch
    {
        "good" => Verdict.InRange,
        "reasonable" => Verdict.Warning,
        "poor" => Verdict.Action,
        _ => throw new ArgumentOutOfRangeException(nameof(label), label, "Not a label of the published bands."),
    };
}
