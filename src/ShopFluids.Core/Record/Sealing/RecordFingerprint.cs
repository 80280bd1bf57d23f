using System.Globalization;

namespace ShopFluids.Core.Record.Sealing;

/// <summary>
/// What is kept of the record elsewhere, on a printed sheet or beside a backup: how many entries it had, and the hash of the last one. Whoever
/// changes or cuts off an entry up to there is found out by it. The default value fits every record.
/// </summary>
/// <param name="Count">The number of the last entry; 0 for a record without any.</param>
/// <param name="Hash">The beginning of its hash, or all of it, in lower-case hex.</param>
public readonly record struct RecordFingerprint(long Count, string Hash)
{
    /// <summary>Fewer digits say too little: with eight, one of four thousand million entries fits by chance.</summary>
    public const int LeastDigits = 8;

    /// <summary>The record before its first entry.</summary>
    public static RecordFingerprint OfNothing { get; } = new(0, RecordEntry.FirstPreviousHash);

    /// <summary>Whether this is kept of an entry with that hash.</summary>
    public bool Fits(string hash) => hash.StartsWith(Hash ?? "", StringComparison.Ordinal);

    /// <summary>
    /// Reads COUNT:HASH as sheets and pages show them: the count grouped as anywhere in the world, the hash in capitals or not, with the spaces
    /// and dots between its groups, whole or only its beginning.
    /// </summary>
    public static bool TryParse(string text, out RecordFingerprint fingerprint)
    {
        ArgumentNullException.ThrowIfNull(text);
        fingerprint = default;
        var colon = text.IndexOf(':', StringComparison.Ordinal);
        if (colon < 0)
        {
            return false;
        }

        var count = string.Concat(text[..colon].Where(c => !char.IsWhiteSpace(c) && !".,'’".Contains(c, StringComparison.Ordinal)));
        var hash = string.Concat(text[(colon + 1)..].Where(c => !char.IsWhiteSpace(c) && !"·…".Contains(c, StringComparison.Ordinal))).ToLowerInvariant();
        if (!long.TryParse(count, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            || hash.Length < LeastDigits
            || hash.Length > RecordEntry.FirstPreviousHash.Length
            || !hash.All(char.IsAsciiHexDigitLower))
        {
            return false;
        }

        fingerprint = new(number, hash);
        return true;
    }

    /// <summary>COUNT:HASH, which <see cref="TryParse"/> reads again.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Count}:{Hash}");
}
