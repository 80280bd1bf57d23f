namespace ShopFluids.Core.DemoData.Generated;

/// <summary>How large a generated shop is.</summary>
/// <param name="Sumps">1 to 5,000, each with its machine.</param>
/// <param name="Years">1 to 20, of 52 weeks each.</param>
/// <param name="Seed">Any number; another one makes another, equally likely shop.</param>
public sealed record ShopSize(int Sumps, int Years, int Seed)
{
    public const int MostSumps = 5000;
    public const int MostYears = 20;
    public const int WeeksOfAYear = 52;

    public int Weeks => Years * WeeksOfAYear;
}
