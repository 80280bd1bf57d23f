using System.Text.RegularExpressions;

namespace ShopFluids.Core.Machines;

/// <summary>Tags of machines, sumps and instruments: short, readable from two metres, safe in an address.</summary>
public static partial class Tags
{
    public const int MaximumLength = 20;

    /// <summary>The form under which a tag is unique: s-07 and S-07 are one sump.</summary>
    public static string Key(string tag) => tag.Trim().ToUpperInvariant();

    /// <summary>Letters, digits, hyphen, point and underscore; 1 to 20 of them, beginning with a letter or digit.</summary>
    public static bool IsValid(string tag) => TagPattern().IsMatch(tag);

    [GeneratedRegex(@"^[\p{L}\p{Nd}][\p{L}\p{Nd}._-]{0,19}$", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex TagPattern();
}
