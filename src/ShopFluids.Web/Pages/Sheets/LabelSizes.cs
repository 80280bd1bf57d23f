using ShopFluids.Core.Wording;
using ShopFluids.Printing;

namespace ShopFluids.Web.Pages.Sheets;

/// <summary>The sizes of labels as addresses write them and as pages name them.</summary>
internal static class LabelSizes
{
    public static IReadOnlyList<(string Code, string Name)> All => [("62mm", Texts.Label_Size62), ("a6", Texts.Label_SizeA6), ("sheet", Texts.Label_SizeSheet)];

    /// <summary>Nothing is the roll of 62 mm.</summary>
    public static bool TryRead(string? text, out LabelSize size)
    {
        (var isKnown, size) = text?.ToUpperInvariant() switch
        {
            null or "" or "62MM" => (true, LabelSize.Roll62),
            "A6" => (true, LabelSize.A6),
            "SHEET" => (true, LabelSize.Sheet),
            _ => (false, LabelSize.Roll62),
        };
        return isKnown;
    }
}
