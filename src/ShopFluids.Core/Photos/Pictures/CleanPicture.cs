using System.Runtime.InteropServices;
using System.Security.Cryptography;

namespace ShopFluids.Core.Photos.Pictures;

/// <summary>
/// A picture of which only the picture is left: where and when it was taken, by which device, in which words, is gone. There is no other way to
/// make one than <see cref="Read"/>.
/// </summary>
public sealed class CleanPicture
{
    /// <summary>8 MB: many times what a tablet makes of any picture, and enough for one straight out of most cameras.</summary>
    public const int MaximumBytes = 8_000_000;

    /// <summary>More than any camera of a phone gives; what a browser has to unpack stays within bounds.</summary>
    public const int LongestSidePixels = 16_000;

    private CleanPicture(PictureKind kind, byte[] bytes, PictureSize size, int orientation)
    {
        Kind = kind;
        Bytes = bytes;
        Size = size;
        Orientation = orientation;
        Sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes));
    }

    public PictureKind Kind { get; }

    public ReadOnlyMemory<byte> Bytes { get; }

    /// <summary>As it is packed, before it is turned.</summary>
    public PictureSize Size { get; }

    /// <summary>How it is to be turned before it is looked at: 1 to 8 by the tag of this name in Exif 2.32, 4.6.4 A; 1 as it is.</summary>
    public int Orientation { get; }

    /// <summary>Of <see cref="Bytes"/>, lower-case hex.</summary>
    public string Sha256 { get; }

    /// <summary>Reads the bytes of a file and leaves out all that is not the picture.</summary>
    /// <param name="file">Whatever was sent; nothing in it is believed before it is looked at.</param>
    public static PictureReading Read(ReadOnlySpan<byte> file)
    {
        if (file.Length > MaximumBytes)
        {
            return new(null, PictureFault.TooManyBytes);
        }

        if (KindOf(file) is not { } kind)
        {
            return new(null, PictureFault.UnknownKind);
        }

        var kept = new KeptBytes(file.Length);
        var parts = kind switch
        {
            PictureKind.Jpeg => JpegSegments.Copy(file, kept),
            PictureKind.Png => PngChunks.Copy(file, kept),
            _ => WebPChunks.Copy(file, kept),
        };
        return parts switch
        {
            { Fault: { } fault } => new(null, fault),
            { Size: { } size } when size.LongestSide > LongestSidePixels => new(null, PictureFault.TooManyPixels),
            { Size: { } size } => new(new CleanPicture(kind, kept.ToArray(), size, parts.Orientation), null),
            _ => new(null, PictureFault.Broken),
        };
    }

    private static PictureKind? KindOf(ReadOnlySpan<byte> file) =>
        file.StartsWith(JpegSegments.Signature) ? PictureKind.Jpeg
        : file.StartsWith(PngChunks.Signature) ? PictureKind.Png
        : WebPChunks.IsWebP(file) ? PictureKind.WebP
        : null;
}

/// <param name="WidthPixels">From 1.</param>
/// <param name="HeightPixels">From 1.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct PictureSize(int WidthPixels, int HeightPixels)
{
    public int LongestSide => Math.Max(WidthPixels, HeightPixels);
}

/// <summary>A picture, or why there is none.</summary>
public sealed record PictureReading(CleanPicture? Picture, PictureFault? Fault);

/// <summary>What a walk through the parts of a file found.</summary>
/// <param name="Size">Null where the file does not say or is broken.</param>
[StructLayout(LayoutKind.Auto)]
internal readonly record struct PictureParts(PictureSize? Size, int Orientation, PictureFault? Fault = null)
{
    public static PictureParts Broken { get; } = new(null, 1, PictureFault.Broken);
}

/// <summary>The bytes that go on into the clean picture: no more than came, but for the one that fills up a last chunk.</summary>
internal sealed class KeptBytes(int came)
{
    private readonly byte[] _bytes = new byte[came + 1];
    private int _length;

    public int Length => _length;

    public void Add(ReadOnlySpan<byte> bytes)
    {
        bytes.CopyTo(_bytes.AsSpan(_length));
        _length += bytes.Length;
    }

    /// <summary>What was kept from a place on, to be changed where it stands.</summary>
    public Span<byte> From(int start) => _bytes.AsSpan(start, _length - start);

    public byte[] ToArray() => _bytes.AsSpan(0, _length).ToArray();
}
