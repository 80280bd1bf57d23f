using System.Globalization;
using System.Text.RegularExpressions;

namespace ShopFluids.Web.Api.Json;

/// <summary>ISO 8601 and nothing else: what a program sends is never guessed at.</summary>
internal static partial class InstantText
{
    public static bool TryRead(string text, out DateTime instantUtc)
    {
        instantUtc = default;
        if (!Shape().IsMatch(text) || !DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var instant))
        {
            return false;
        }

        instantUtc = instant.UtcDateTime;
        return true;
    }

    [GeneratedRegex(@"^[0-9]{4}-[0-9]{2}-[0-9]{2}[Tt][0-9]{2}:[0-9]{2}(:[0-9]{2}(\.[0-9]{1,12})?)?([Zz]|[+-][0-9]{2}:[0-9]{2})\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Shape();
}
