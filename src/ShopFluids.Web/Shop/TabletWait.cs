using System.Globalization;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Shop;

/// <summary>
/// How long something waited on a tablet. Both moments are of the tablet's clock, so that only its difference counts, not what it shows.
/// </summary>
internal static class TabletWait
{
    /// <summary>When it was saved, by the tablet's clock, ms since 1970; empty: just now.</summary>
    public const string SavedAtName = "savedAt";

    /// <summary>When it was sent, by the same clock.</summary>
    public const string SentAtName = "sentAt";

    // Older than this is nothing that waited for Wi-Fi but a clock that was set.
    private static readonly TimeSpan Longest = TimeSpan.FromDays(30);

    public static TimeSpan Of(FormPost post) => Between(post.Text(SavedAtName), post.Text(SentAtName));

    public static TimeSpan Between(string savedAt, string sentAt) =>
        long.TryParse(savedAt, NumberStyles.None, CultureInfo.InvariantCulture, out var saved) && long.TryParse(sentAt, NumberStyles.None, CultureInfo.InvariantCulture, out var sent)
        && sent > saved && sent - saved <= (long)Longest.TotalMilliseconds
            ? TimeSpan.FromMilliseconds(sent - saved)
            : TimeSpan.Zero;
}
