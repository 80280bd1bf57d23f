using System.Globalization;

namespace ShopFluids.Core.Wording;

/// <summary>
/// Reads a typed number. Both comma and point are decimal signs, whatever the culture: on a shop floor nobody types thousands
/// separators, and 8,9 must never become 89. Two signs in one number are refused rather than guessed at.
/// </summary>
public static class NumberInput
{
    public static bool TryRead(string? text, out decimal value)
    {
        value = 0;
        var trimmed = (text ?? "").Trim().Replace('\u2212', '-').Replace("\u00a0", "", StringComparison.Ordinal).Replace(" ", "", StringComparison.Ordinal);
        if (trimmed.Length is 0 or > 20 || trimmed.Count(c => c is ',' or '.') > 1)
        {
            return false;
        }

        return decimal.TryParse(trimmed.Replace(',', '.'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value);
    }
}
