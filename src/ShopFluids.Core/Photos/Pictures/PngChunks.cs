using System.Buffers.Binary;

namespace ShopFluids.Core.Photos.Pictures;

/// <summary>
/// Copies a PNG file (PNG, third edition, section 5) chunk by chunk. Of the chunks that a reader may leave out only those stay that say how
/// the samples are to be shown; texts, times, Exif, the frames of a moving picture and whatever is unknown go.
/// </summary>
internal static class PngChunks
{
    private const int Around = 12;
    private const int HeaderLength = 13;
    private static readonly uint[] Sums = MakeSums();

    public static ReadOnlySpan<byte> Signature => [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A];

    public static PictureParts Copy(ReadOnlySpan<byte> file, KeptBytes kept)
    {
        kept.Add(Signature);
        var rest = file[Signature.Length..];
        PictureSize? size = null;
        var orientation = ExifOrientation.AsItIs;
        var hasSamples = false;
        while (rest.Length >= Around && BinaryPrimitives.ReadUInt32BigEndian(rest) is var length && length <= rest.Length - Around)
        {
            var chunk = rest[..((int)length + Around)];
            var name = chunk[4..8];
            var content = chunk[8..^4];
            rest = rest[chunk.Length..];

            // The header comes first, once; and what was spoiled on its way is not half taken.
            if (name.SequenceEqual("IHDR"u8) != (size is null) || Sum(chunk[4..^4]) != BinaryPrimitives.ReadUInt32BigEndian(chunk[^4..]))
            {
                return PictureParts.Broken;
            }

            if (name.SequenceEqual("IHDR"u8))
            {
                if ((size = SizeOf(content)) is null)
                {
                    return PictureParts.Broken;
                }
            }
            else if (name.SequenceEqual("eXIf"u8))
            {
                orientation = ExifOrientation.Read(content);
            }

            hasSamples |= name.SequenceEqual("IDAT"u8);
            if (IsKept(name))
            {
                kept.Add(chunk);
            }
            else if (IsCritical(name))
            {
                return PictureParts.Broken;
            }

            if (name.SequenceEqual("IEND"u8))
            {
                return hasSamples ? new(size, orientation) : PictureParts.Broken;
            }
        }

        return PictureParts.Broken;
    }

    private static bool IsKept(ReadOnlySpan<byte> name) =>
        name.SequenceEqual("IHDR"u8) || name.SequenceEqual("PLTE"u8) || name.SequenceEqual("IDAT"u8) || name.SequenceEqual("IEND"u8)
        || name.SequenceEqual("tRNS"u8) || name.SequenceEqual("cHRM"u8) || name.SequenceEqual("gAMA"u8) || name.SequenceEqual("iCCP"u8)
        || name.SequenceEqual("sBIT"u8) || name.SequenceEqual("sRGB"u8) || name.SequenceEqual("cICP"u8);

    // A small first letter marks what may be left out.
    private static bool IsCritical(ReadOnlySpan<byte> name) => (name[0] & 0x20) == 0;

    private static PictureSize? SizeOf(ReadOnlySpan<byte> header)
    {
        if (header.Length != HeaderLength)
        {
            return null;
        }

        var (width, height) = (BinaryPrimitives.ReadInt32BigEndian(header), BinaryPrimitives.ReadInt32BigEndian(header[4..]));
        return width < 1 || height < 1 ? null : new PictureSize(width, height);
    }

    /// <summary>CRC-32 as annex D of the standard gives it.</summary>
    internal static uint Sum(ReadOnlySpan<byte> bytes)
    {
        var sum = uint.MaxValue;
        foreach (var value in bytes)
        {
            sum = Sums[(byte)(sum ^ value)] ^ (sum >> 8);
        }

        return ~sum;
    }

    private static uint[] MakeSums()
    {
        var sums = new uint[256];
        for (var n = 0u; n < sums.Length; n++)
        {
            var sum = n;
            for (var bit = 0; bit < 8; bit++)
            {
                sum = (sum & 1) == 0 ? sum >> 1 : 0xEDB88320 ^ (sum >> 1);
            }

            sums[n] = sum;
        }

        return sums;
    }
}
