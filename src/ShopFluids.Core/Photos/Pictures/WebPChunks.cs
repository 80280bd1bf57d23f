using System.Buffers.Binary;

namespace ShopFluids.Core.Photos.Pictures;

/// <summary>
/// Copies a WebP file (RFC 9649, section 2) chunk by chunk: the picture, its transparency and its colour profile. Exif, XMP and whatever is
/// unknown go, and the header says so. A picture that moves is not taken.
/// </summary>
internal static class WebPChunks
{
    private const int FileHeader = 12;
    private const int ChunkHeader = 8;
    private const int ExtendedLength = 10;
    private const byte Moves = 0x02;

    // Colour profile and transparency.
    private const byte KeptFlags = 0x30;

    public static bool IsWebP(ReadOnlySpan<byte> file) => file.Length >= FileHeader && file.StartsWith("RIFF"u8) && file[8..12].SequenceEqual("WEBP"u8);

    public static PictureParts Copy(ReadOnlySpan<byte> file, KeptBytes kept)
    {
        var total = BinaryPrimitives.ReadUInt32LittleEndian(file[4..]);
        if (total < 4 || total > file.Length - 8)
        {
            return PictureParts.Broken;
        }

        kept.Add(file[..FileHeader]);
        var rest = file[FileHeader..(int)(total + 8)];
        PictureSize? size = null;
        var (orientation, hasSamples, isFirst) = (ExifOrientation.AsItIs, false, true);
        while (rest.Length >= ChunkHeader)
        {
            var length = BinaryPrimitives.ReadUInt32LittleEndian(rest[4..]);
            if (length > rest.Length - ChunkHeader)
            {
                return PictureParts.Broken;
            }

            // A chunk of odd length is followed by one byte that says nothing; the last one of some writers lacks it.
            var name = rest[..4];
            var content = rest.Slice(ChunkHeader, (int)length);
            rest = rest[Math.Min(rest.Length, ChunkHeader + (int)length + (int)(length & 1))..];
            var isExtended = name.SequenceEqual("VP8X"u8);
            var isSamples = name.SequenceEqual("VP8 "u8) || name.SequenceEqual("VP8L"u8);
            if ((isExtended && !isFirst) || (isSamples && hasSamples) || (isFirst && !isExtended && !isSamples))
            {
                return PictureParts.Broken;
            }

            if (name.SequenceEqual("ANIM"u8) || name.SequenceEqual("ANMF"u8) || (isExtended && content.Length > 0 && (content[0] & Moves) != 0))
            {
                return new(null, ExifOrientation.AsItIs, PictureFault.UnknownKind);
            }

            if (isExtended || isSamples)
            {
                if (SizeOf(name, content) is not { } read)
                {
                    return PictureParts.Broken;
                }

                size ??= read;
            }

            orientation = name.SequenceEqual("EXIF"u8) ? ExifOrientation.Read(content.StartsWith("Exif\0\0"u8) ? content[6..] : content) : orientation;
            hasSamples |= isSamples;
            isFirst = false;
            if (isExtended || isSamples || name.SequenceEqual("ALPH"u8) || name.SequenceEqual("ICCP"u8))
            {
                Keep(kept, name, content, isExtended);
            }
        }

        if (!rest.IsEmpty || !hasSamples)
        {
            return PictureParts.Broken;
        }

        BinaryPrimitives.WriteUInt32LittleEndian(kept.From(4), (uint)(kept.Length - ChunkHeader));
        return new(size, orientation);
    }

    private static void Keep(KeptBytes kept, ReadOnlySpan<byte> name, ReadOnlySpan<byte> content, bool isExtended)
    {
        var start = kept.Length;
        kept.Add(name);
        kept.Add([(byte)content.Length, (byte)(content.Length >> 8), (byte)(content.Length >> 16), (byte)(content.Length >> 24)]);
        kept.Add(content);
        if ((content.Length & 1) == 1)
        {
            kept.Add([0]);
        }

        if (isExtended)
        {
            var flags = kept.From(start + ChunkHeader);
            flags[0] &= KeptFlags;
            flags[1..4].Clear();
        }
    }

    private static PictureSize? SizeOf(ReadOnlySpan<byte> name, ReadOnlySpan<byte> content)
    {
        if (name.SequenceEqual("VP8X"u8))
        {
            return content.Length == ExtendedLength ? new PictureSize(UInt24(content[4..]) + 1, UInt24(content[7..]) + 1) : null;
        }

        return name.SequenceEqual("VP8L"u8) ? OfLossless(content) : OfLossy(content);
    }

    // RFC 6386, 9.1: a key frame begins with its tag, three fixed bytes, and 14 bits each of width and height.
    private static PictureSize? OfLossy(ReadOnlySpan<byte> content)
    {
        if (content.Length < 10 || (content[0] & 1) != 0 || !content[3..6].SequenceEqual((ReadOnlySpan<byte>)[0x9D, 0x01, 0x2A]))
        {
            return null;
        }

        var (width, height) = (BinaryPrimitives.ReadUInt16LittleEndian(content[6..]) & 0x3FFF, BinaryPrimitives.ReadUInt16LittleEndian(content[8..]) & 0x3FFF);
        return width == 0 || height == 0 ? null : new PictureSize(width, height);
    }

    // RFC 9649, 3.4: one fixed byte, then 14 bits each of width and height less one.
    private static PictureSize? OfLossless(ReadOnlySpan<byte> content)
    {
        if (content.Length < 5 || content[0] != 0x2F)
        {
            return null;
        }

        var bits = BinaryPrimitives.ReadUInt32LittleEndian(content[1..]);
        return new PictureSize((int)(bits & 0x3FFF) + 1, (int)((bits >> 14) & 0x3FFF) + 1);
    }

    private static int UInt24(ReadOnlySpan<byte> bytes) => bytes[0] | (bytes[1] << 8) | (bytes[2] << 16);
}
