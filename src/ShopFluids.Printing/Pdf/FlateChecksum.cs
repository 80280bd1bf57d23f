using System.Buffers.Binary;
using System.IO.Compression;

namespace ShopFluids.Printing.Pdf;

/// <summary>The Adler-32 checksum at the end of a zlib stream (RFC 1950).</summary>
internal static class FlateChecksum
{
    private const int HeaderLength = 2;
    private const uint Modulus = 65521;

    // So many bytes can be added up before 32 bits overflow (RFC 1950 leaves when to take the remainder to the program).
    private const int BytesBetweenRemainders = 5552;

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
        while (!data.IsEmpty)
        {
            var block = data[..Math.Min(BytesBetweenRemainders, data.Length)];
            foreach (var value in block)
            {
                low += value;
                high += low;
            }

            (low, high) = (low % Modulus, high % Modulus);
            data = data[block.Length..];
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
