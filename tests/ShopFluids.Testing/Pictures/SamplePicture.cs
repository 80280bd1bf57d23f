using System.Buffers.Binary;
using System.Text;
using ShopFluids.Core.Photos.Pictures;

namespace ShopFluids.Testing.Pictures;

/// <summary>
/// Small pictures as browsers write them, 24 by 16 pixels, blue-green with a red corner at the top left; and the same with what cameras and
/// programs add to them.
/// </summary>
public static class SamplePicture
{
    public const int Width = 24;
    public const int Height = 16;

    /// <summary>Stands in every text that is added: a clean picture holds it nowhere.</summary>
    public const string Secret = "53.0793N 8.8017E";

    private const string JpegText =
        "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAA0JCgsKCA0LCgsODg0PEyAVExISEyccHhcgLikxMC4pLSwzOko+MzZGNywtQFdBRkxOUlNSMj5aYVpQYEpRUk//2wBDAQ4ODhMREyYVFSZPNS01T09PT0" +
        "9PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT0//wAARCAAQABgDASIAAhEBAxEB/8QAFgABAQEAAAAAAAAAAAAAAAAAAAYH/8QAFBABAAAAAAAAAAAAAAAAAAAAAP/E" +
        "ABYBAQEBAAAAAAAAAAAAAAAAAAIBBP/EABkRAAIDAQAAAAAAAAAAAAAAAAARAQQUIf/aAAwDAQACEQMRAD8AmWkAcQi3LmlcSABGM//Z";

    private const string PngText =
        "iVBORw0KGgoAAAANSUhEUgAAABgAAAAQCAYAAAAMJL+VAAAASElEQVR4AezRsQkAIAwEwCcjOI8TOoOVIziDOJRN3CBfiKT5wHchgXsbpXqUvra/xPB59IACi4gTndkQhV4gC+qAAAEiyie6AAAA//" +
        "/7SiCFAAAABklEQVQDAB6KU5nyQ/DjAAAAAElFTkSuQmCC";

    private const string LossyText =
        "UklGRkQAAABXRUJQVlA4IDgAAADQAgCdASoYABAAPrVInkmnJCKhMAgA4BaJQBdgBlKAAP7fVf/lM//Jw//6jusE//EOXNkQI2gAAA==";

    private const string LosslessText =
        "UklGRiwAAABXRUJQVlA4TCAAAAAvF8ADAA9wJ+IbcN7OeP7jAWLBZP7SvSFE9D9iAgAAAA==";

    public static byte[] Jpeg => Convert.FromBase64String(JpegText);

    public static byte[] Png => Convert.FromBase64String(PngText);

    public static byte[] WebP => Convert.FromBase64String(LossyText);

    public static byte[] LosslessWebP => Convert.FromBase64String(LosslessText);

    /// <summary>As it goes on into the shop.</summary>
    public static CleanPicture Clean(byte[]? file = null) =>
        CleanPicture.Read(file ?? Jpeg).Picture ?? throw new InvalidOperationException("This is no picture that the shop takes.");

    /// <summary>With a place, a comment, a small picture of its own, other makers' blocks, and a film behind its end.</summary>
    public static byte[] TalkativeJpeg(int orientation = 1, bool isBigEndian = true)
    {
        var picture = Jpeg;

        // The first segment of the sample is JFIF, 18 bytes with its marker.
        return
        [
            .. picture[..2],
            .. Segment(0xE0, [.. "JFIF\0"u8, 1, 1, 0, 0, 1, 0, 1, 1, 1, 9, 9, 9]),
            .. Segment(0xE1, [.. "Exif\0\0"u8, .. Exif(orientation, isBigEndian)]),
            .. Segment(0xE1, Latin("http://ns.adobe.com/xap/1.0/\0" + Secret)),
            .. Segment(0xE2, Latin("MPF\0" + Secret)),
            .. Segment(0xED, Latin("Photoshop 3.0\0" + Secret)),
            .. Segment(0xFE, Latin(Secret)),
            .. picture[20..],
            .. Latin(Secret),
        ];
    }

    /// <summary>With texts, a time, Exif, an unknown chunk, and something behind its end.</summary>
    public static byte[] TalkativePng(int orientation = 1)
    {
        var picture = Png;
        const int EndOfHeader = 33;
        return
        [
            .. picture[..EndOfHeader],
            .. Chunk("gAMA", [0, 0, 0xB1, 0x8F]),
            .. Chunk("tEXt", Latin("Comment\0" + Secret)),
            .. Chunk("zTXt", Latin("Comment\0\0" + Secret)),
            .. Chunk("iTXt", Latin("Comment\0\0\0\0\0" + Secret)),
            .. Chunk("tIME", [0x07, 0xEA, 3, 2, 8, 0, 0]),
            .. Chunk("eXIf", Exif(orientation, isBigEndian: false)),
            .. Chunk("prIV", Latin(Secret)),
            .. picture[EndOfHeader..],
            .. Latin(Secret),
        ];
    }

    /// <summary>Extended, with a colour profile, Exif, XMP, an unknown chunk, and something behind its end.</summary>
    public static byte[] TalkativeWebP(int orientation = 1)
    {
        byte[] header = [0x2C, 0, 0, 0, Width - 1, 0, 0, Height - 1, 0, 0];
        byte[] chunks =
        [
            .. RiffChunk("VP8X", header),
            .. RiffChunk("ICCP", [1, 2, 3]),
            .. WebP[12..],
            .. RiffChunk("EXIF", Exif(orientation, isBigEndian: true)),
            .. RiffChunk("XMP ", Latin(Secret)),
            .. RiffChunk("PRIV", Latin(Secret + "!")),
        ];
        return [.. Riff(chunks), .. Latin(Secret)];
    }

    public static byte[] Riff(ReadOnlySpan<byte> chunks)
    {
        var size = new byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(size, (uint)chunks.Length + 4);
        return [.. "RIFF"u8, .. size, .. "WEBP"u8, .. chunks];
    }

    public static byte[] RiffChunk(string name, ReadOnlySpan<byte> content)
    {
        var size = new byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(size, (uint)content.Length);
        return [.. Latin(name), .. size, .. content, .. new byte[content.Length & 1]];
    }

    public static byte[] Segment(byte marker, ReadOnlySpan<byte> content) =>
        [0xFF, marker, (byte)((content.Length + 2) >> 8), (byte)(content.Length + 2), .. content];

    public static byte[] Chunk(string name, ReadOnlySpan<byte> content)
    {
        var (length, sum) = (new byte[4], new byte[4]);
        BinaryPrimitives.WriteUInt32BigEndian(length, (uint)content.Length);
        byte[] summed = [.. Latin(name), .. content];
        BinaryPrimitives.WriteUInt32BigEndian(sum, Crc(summed));
        return [.. length, .. summed, .. sum];
    }

    /// <summary>One directory: the maker of the camera, then the orientation; behind it the maker's name.</summary>
    public static byte[] Exif(int orientation, bool isBigEndian)
    {
        var tiff = new byte[8 + 2 + 12 + 12 + 4];
        (tiff[0], tiff[1]) = isBigEndian ? ((byte)'M', (byte)'M') : ((byte)'I', (byte)'I');
        Write16(2, 42);
        Write32(4, 8);
        Write16(8, 2);
        Write16(10, 0x010F);
        Write16(12, 2);
        Write32(14, (uint)Secret.Length);
        Write32(18, (uint)tiff.Length);
        Write16(22, 0x0112);
        Write16(24, 3);
        Write32(26, 1);
        Write16(30, (ushort)orientation);
        return [.. tiff, .. Latin(Secret)];

        void Write16(int at, ushort value)
        {
            (tiff[at], tiff[at + 1]) = isBigEndian ? ((byte)(value >> 8), (byte)value) : ((byte)value, (byte)(value >> 8));
        }

        void Write32(int at, uint value)
        {
            Write16(isBigEndian ? at : at + 2, (ushort)(value >> 16));
            Write16(isBigEndian ? at + 2 : at, (ushort)value);
        }
    }

    private static byte[] Latin(string text) => Encoding.Latin1.GetBytes(text);

    // Bit by bit, so that it shares nothing with the table that it tests.
    private static uint Crc(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var value in bytes)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) == 0 ? crc >> 1 : 0xEDB88320 ^ (crc >> 1);
            }
        }

        return ~crc;
    }
}
