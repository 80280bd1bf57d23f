namespace ShopFluids.Printing.Layout;

/// <summary>Puts finished texts into the patterns of the sheet. Nothing is formatted here, so no culture is needed.</summary>
internal static class SheetText
{
    public static string Fill(string pattern, params ReadOnlySpan<string> values)
    {
        var text = pattern;
        for (var n = 0; n < values.Length; n++)
        {
            text = text.Replace($"{{{n}}}", values[n], StringComparison.Ordinal);
        }

        return text;
    }
}
