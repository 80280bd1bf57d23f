using System.Buffers.Binary;

namespace ShopFluids.Core.Photos.Pictures;

/// <summary>
/// Copies a JPEG file (ITU-T T.81, annex B) segment by segment. Of the application segments only those stay that say how the samples are to be
/// shown: JFIF without its small picture, the colour profile, and Adobe's mark of the colour transform. Comments and all others go, and
/// everything behind the end of the picture: telephones append films and depths there.
/// </summary>
internal static class JpegSegments
{
    private const byte EndOfImage = 0xD9;
    private const byte StartOfScan = 0xDA;
    private const byte Comment = 0xFE;
    private const int JfifLength = 14;
    private const int AdobeLength = 12;

    /// <summary>Start of image, and the beginning of the next marker.</summary>
    public static ReadOnlySpan<byte> Signature => [0xFF, 0xD8, 0xFF];

    public static PictureParts Copy(ReadOnlySpan<byte> file, KeptBytes kept)
    {
        kept.Add(file[..2]);
        var rest = file[2..];
        PictureSize? size = null;
        var orientation = ExifOrientation.AsItIs;
        var hasScan = false;
        while (NextMarker(ref rest) is { } marker)
        {
            if (marker == EndOfImage)
            {
                kept.Add([0xFF, EndOfImage]);
                return hasScan && size is not null ? new(size, orientation) : PictureParts.Broken;
            }

            var length = HasLength(marker) && rest.Length >= 2 ? BinaryPrimitives.ReadUInt16BigEndian(rest) : 0;
            if (length < 2 || length > rest.Length)
            {
                return PictureParts.Broken;
            }

            var content = rest[2..length];
            rest = rest[length..];
            if (IsFrame(marker))
            {
                // Two frames are two pictures: of a hierarchical file, which no browser shows.
                if (size is not null || SizeOf(content) is not { } read)
                {
                    return PictureParts.Broken;
                }

                size = read;
            }

            orientation = marker == 0xE1 && content.StartsWith("Exif\0\0"u8) ? ExifOrientation.Read(content[6..]) : orientation;
            Keep(kept, marker, marker is >= 0xE0 and <= 0xEF ? OfApplication(marker, content) : marker == Comment ? [] : content);
            if (marker == StartOfScan)
            {
                hasScan = true;
                var samples = SampleLength(rest);
                kept.Add(rest[..samples]);
                rest = rest[samples..];
            }
        }

        return PictureParts.Broken;
    }

    // Any number of FF may stand before a marker.
    private static byte? NextMarker(ref ReadOnlySpan<byte> rest)
    {
        if (rest.IsEmpty || rest[0] != 0xFF)
        {
            return null;
        }

        var marker = rest.IndexOfAnyExcept((byte)0xFF);
        if (marker < 0)
        {
            return null;
        }

        var found = rest[marker];
        rest = rest[(marker + 1)..];
        return found;
    }

    // Frames, tables, scans, lines, restarts, applications, comment: everything else stands alone, is reserved, or has no place here.
    private static bool HasLength(byte marker) => marker is (>= 0xC0 and <= 0xCF and not 0xC8) or (>= 0xDA and <= 0xDD) or (>= 0xE0 and <= 0xEF) or Comment;

    private static bool IsFrame(byte marker) => marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC);

    private static PictureSize? SizeOf(ReadOnlySpan<byte> frame)
    {
        if (frame.Length < 6)
        {
            return null;
        }

        var (height, width) = (BinaryPrimitives.ReadUInt16BigEndian(frame[1..]), BinaryPrimitives.ReadUInt16BigEndian(frame[3..]));
        return height == 0 || width == 0 ? null : new PictureSize(width, height);
    }

    private static ReadOnlySpan<byte> OfApplication(byte marker, ReadOnlySpan<byte> content) => marker switch
    {
        0xE0 when content.StartsWith("JFIF\0"u8) && content.Length >= JfifLength => content[..JfifLength],
        0xE2 when content.StartsWith("ICC_PROFILE\0"u8) => content,
        0xEE when content.StartsWith("Adobe"u8) && content.Length >= AdobeLength => content[..AdobeLength],
        _ => [],
    };

    private static void Keep(KeptBytes kept, byte marker, ReadOnlySpan<byte> content)
    {
        if (content.IsEmpty)
        {
            return;
        }

        var length = (ushort)(content.Length + 2);
        kept.Add([0xFF, marker, (byte)(length >> 8), (byte)length]);
        var start = kept.Length;
        kept.Add(content);
        if (marker == 0xE0)
        {
            // Width and height of the small picture that was cut off.
            kept.From(start)[(JfifLength - 2)..].Clear();
        }
    }

    /// <summary>Up to the next marker: FF followed by 00 is a sample, by D0 to D7 a restart within the scan.</summary>
    private static int SampleLength(ReadOnlySpan<byte> rest)
    {
        var at = 0;
        while (at < rest.Length)
        {
            var found = rest[at..].IndexOf((byte)0xFF);
            if (found < 0 || at + found + 1 >= rest.Length)
            {
                return rest.Length;
            }

            at += found;
            if (rest[at + 1] is not (0x00 or (>= 0xD0 and <= 0xD7)))
            {
                return at;
            }

            at += 2;
        }

        return rest.Length;
    }
}
