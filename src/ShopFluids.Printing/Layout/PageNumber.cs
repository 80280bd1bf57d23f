using System.Globalization;

namespace ShopFluids.Printing.Layout;

/// <summary>Page numbers are small whole numbers, which every culture of the sheets writes with the same digits.</summary>
internal static class PageNumber
{
    public static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
