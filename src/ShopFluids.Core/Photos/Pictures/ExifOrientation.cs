using System.Buffers.Binary;

namespace ShopFluids.Core.Photos.Pictures;

/// <summary>
/// Takes from an Exif block the one thing that the picture needs: how to turn it. The block is a TIFF file (TIFF 6.0, section 2): byte order, 42,
/// the place of the first directory, and in it entries of 12 bytes. Whatever is not so says nothing, and the picture stays as it is.
/// </summary>
internal static class ExifOrientation
{
    public const int AsItIs = 1;
    private const int HeaderLength = 8;
    private const int EntryLength = 12;
    private const ushort OrientationTag = 0x0112;
    private const ushort ShortType = 3;

    /// <summary>1 to 8; 1 where the block does not say.</summary>
    public static int Read(ReadOnlySpan<byte> tiff)
    {
        if (tiff.Length < HeaderLength || OrderOf(tiff) is not { } isBigEndian || UInt16(tiff[2..], isBigEndian) != 42)
        {
            return AsItIs;
        }

        var directory = UInt32(tiff[4..], isBigEndian);
        if (directory > tiff.Length - 2)
        {
            return AsItIs;
        }

        var entries = tiff[(int)directory..];
        var count = UInt16(entries, isBigEndian);
        entries = entries[2..];
        for (var i = 0; i < count && entries.Length >= EntryLength; i++, entries = entries[EntryLength..])
        {
            if (UInt16(entries, isBigEndian) == OrientationTag)
            {
                var value = UInt16(entries[8..], isBigEndian);
                return UInt16(entries[2..], isBigEndian) == ShortType && UInt32(entries[4..], isBigEndian) == 1 && value is >= 1 and <= 8 ? value : AsItIs;
            }
        }

        return AsItIs;
    }

    private static bool? OrderOf(ReadOnlySpan<byte> tiff) => (tiff[0], tiff[1]) switch
    {
        ((byte)'M', (byte)'M') => true,
        ((byte)'I', (byte)'I') => false,
        _ => null,
    };

    private static ushort UInt16(ReadOnlySpan<byte> bytes, bool isBigEndian) => isBigEndian ? BinaryPrimitives.ReadUInt16BigEndian(bytes) : BinaryPrimitives.ReadUInt16LittleEndian(bytes);

    private static uint UInt32(ReadOnlySpan<byte> bytes, bool isBigEndian) => isBigEndian ? BinaryPrimitives.ReadUInt32BigEndian(bytes) : BinaryPrimitives.ReadUInt32LittleEndian(bytes);
}
