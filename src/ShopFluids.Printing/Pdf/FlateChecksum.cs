using System.Buffers.Binary;
using System.IO.Compression;

namespace ShopFluids.Printing.Pdf;

/// <summary>The Adler-32 checksum at the end of a zlib stream (RFC 1950).</summary>
internal static class FlateChecksum
{
    private const int HeaderLength = 2;
    private const uint Modulus = 65521;

    /// <summary>The stream with its checksum: as it is if it ends with the right one, else with it appended.</summary>
    public static byte[] Complete(byte[] stream)
    {
        var checksum = new byte[sizeof(uint)];
        BinaryPrimitives.WriteUInt32BigEndian(checksum, Adler32(Inflate(stream)));
        return stream.AsSpan().EndsWith(checksum) ? stream : [.. stream, .. checksum];
    }

    public static uint Adler32(ReadOnlySpan<byte> data)
    {
        var (low, high) = (1u, 0u);
        foreach (var value in data)
        {
            low = (low + value) % Modulus;
            high = (high + low) % Modulus;
        }

        return (high << 16) | low;
    }

    private static byte[] Inflate(byte[] stream)
    {
        using var source = new MemoryStream(stream, HeaderLength, stream.Length - HeaderLength);
        using var inflater = new DeflateStream(source, CompressionMode.Decompress);
        using var plain = new MemoryStream();
        inflater.CopyTo(plain);
        return plain.ToArray();
    }
}
