using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text;

namespace ShopFluids.Core.Record.Sealing;

/// <summary>Holds seals against a key. Takes up the key once: for each seal anew, that takes as long as to hash the entry.</summary>
internal sealed class SealCheck(IncrementalHash keyed) : IDisposable
{
    /// <summary>Whether the seal is the one of the key; how long that takes does not tell how much of it is right.</summary>
    public bool Fits(string hash, string? seal)
    {
        if (seal is null)
        {
            return false;
        }

        keyed.AppendData(Encoding.UTF8.GetBytes(hash));
        Span<byte> expected = stackalloc byte[HMACSHA256.HashSizeInBytes];
        Span<char> digits = stackalloc char[2 * HMACSHA256.HashSizeInBytes];
        keyed.GetHashAndReset(expected);
        return Convert.TryToHexStringLower(expected, digits, out _) && CryptographicOperations.FixedTimeEquals(MemoryMarshal.AsBytes(digits), MemoryMarshal.AsBytes(seal.AsSpan()));
    }

    public void Dispose() => keyed.Dispose();
}
