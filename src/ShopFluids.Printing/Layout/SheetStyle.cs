namespace ShopFluids.Printing.Layout;

/// <summary>Sizes of the printed sheets, in points.</summary>
internal static class SheetStyle
{
    public const double Body = 8.2;
    public const double Small = 7.4;
    public const double Heading = 10.5;
    public const double LineHeight = 1.28;
    public const double BlockGap = 9;
    public const double ThickRule = 1.7;
    public const double Rule = 1;
    public const double HairRule = 0.45;
    public const double HairGrey = 0.6;
}
