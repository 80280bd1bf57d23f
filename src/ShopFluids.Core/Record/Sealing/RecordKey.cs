using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;
using System.Text;

namespace ShopFluids.Core.Record.Sealing;

/// <summary>
/// The shop's key to its record. It is kept outside the database, so whoever owns only that can write no entry that carries its seal. The key
/// also remembers the record as it stood before it: otherwise all seals could be taken away and nobody would miss them.
/// </summary>
public sealed class RecordKey
{
    private const int SecretBytes = 32;
    private const int IdDigits = 16;
    private const string SinceWord = " since ";

    private readonly byte[] _secret;

    private RecordKey(byte[] secret, RecordFingerprint since)
    {
        _secret = secret;
        Since = since;
        Id = Convert.ToHexStringLower(SHA256.HashData(secret))[..IdDigits];
    }

    /// <summary>Every entry behind this one is sealed with the key; this one and those before are held by the chain.</summary>
    public RecordFingerprint Since { get; }

    /// <summary>Names the key without giving it away.</summary>
    public string Id { get; }

    public static RecordKey Make(RecordFingerprint since) => new(RandomNumberGenerator.GetBytes(SecretBytes), since);

    /// <summary>Reads 64 hex digits, alone for a record that is sealed from its first entry on, else followed by "since COUNT:HASH".</summary>
    public static bool TryParse(string text, [NotNullWhen(true)] out RecordKey? key)
    {
        ArgumentNullException.ThrowIfNull(text);
        key = null;
        var parts = text.Trim().Split(SinceWord, 2);
        var since = RecordFingerprint.OfNothing;
        if (parts[0].Length != 2 * SecretBytes || !parts[0].All(char.IsAsciiHexDigit) || (parts.Length == 2 && !RecordFingerprint.TryParse(parts[1], out since)))
        {
            return false;
        }

        key = new(Convert.FromHexString(parts[0]), since);
        return true;
    }

    /// <summary>Whether the record stands where this key is to be taken into use.</summary>
    public bool BeginsAt(RecordFingerprint head) => Since.Count == head.Count && Since.Fits(head.Hash);

    /// <summary>The key itself, as <see cref="TryParse"/> reads it: for the file that holds it and nothing else.</summary>
    public string ToSecretText() => $"{Convert.ToHexStringLower(_secret)}{SinceWord}{Since}";

    /// <summary>HMAC-SHA-256 of an entry's hash in lower-case hex.</summary>
    public string Seal(string hash) => Convert.ToHexStringLower(HMACSHA256.HashData(_secret, Encoding.UTF8.GetBytes(hash)));

    /// <summary>Whether the seal is the one of this key; how long that takes does not tell how much of it is right.</summary>
    public bool HasSealed(string hash, string? seal)
    {
        using var check = BeginChecks();
        return check.Fits(hash, seal);
    }

    /// <summary>For many seals, one after the other.</summary>
    internal SealCheck BeginChecks() => new(IncrementalHash.CreateHMAC(HashAlgorithmName.SHA256, _secret));
}
