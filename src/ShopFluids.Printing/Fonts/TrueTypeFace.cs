using System.Buffers.Binary;
using System.Text;

namespace ShopFluids.Printing.Fonts;

/// <summary>What layout must know of a TrueType file: which characters it has and how wide they are.</summary>
/// <remarks>Reads the tables head, hhea, hmtx and cmap (format 4) as the OpenType specification 1.9 describes them.</remarks>
internal sealed class TrueTypeFace
{
    // A character map of format 4 knows no others.
    private const int Characters16Bit = 0x10000;
    private const int NotThere = -1;

    // Characters before the first that combines with another, and dashes, quotation marks and dots: composed as they are (Unicode Standard Annex 15, NFC_Quick_Check).
    private const char FirstToCompose = '\u0300';
    private const char FirstOfPunctuation = '\u2010';
    private const char LastOfPunctuation = '\u2027';

    private readonly int[] _widths;
    private readonly double _unitsPerEm;

    private TrueTypeFace(int[] widths, double unitsPerEm)
    {
        _widths = widths;
        _unitsPerEm = unitsPerEm;
    }

    public bool Has(Rune character) => character.IsBmp && _widths[character.Value] != NotThere;

    /// <summary>Width of a text at a size, in the unit of the size. Characters that are not in the face have none.</summary>
    public double Measure(ReadOnlySpan<char> text, double size)
    {
        var units = 0;
        foreach (var character in text)
        {
            units += Math.Max(0, _widths[character]);
        }

        return units * size / _unitsPerEm;
    }

    /// <summary>Whether the face surely shows a text as it stands: it has every character, and none could be composed with another.</summary>
    public bool ShowsAsItIs(ReadOnlySpan<char> text)
    {
        foreach (var character in text)
        {
            if (_widths[character] == NotThere || character is >= FirstToCompose and not (>= FirstOfPunctuation and <= LastOfPunctuation))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Whether the face has every character of a text.</summary>
    public bool HasAll(ReadOnlySpan<char> text)
    {
        foreach (var character in text)
        {
            if (_widths[character] == NotThere)
            {
                return false;
            }
        }

        return true;
    }

    public static TrueTypeFace Read(ReadOnlySpan<byte> file)
    {
        var head = Table(file, "head"u8);
        var metrics = Table(file, "hmtx"u8);
        var longMetrics = U16(Table(file, "hhea"u8), 34);
        var widths = new int[Characters16Bit];
        Array.Fill(widths, NotThere);
        foreach (var (character, glyph) in Characters(Table(file, "cmap"u8)))
        {
            widths[character] = U16(metrics, 4 * Math.Min(glyph, longMetrics - 1));
        }

        return new TrueTypeFace(widths, U16(head, 18));
    }

    private static ReadOnlySpan<byte> Table(ReadOnlySpan<byte> file, ReadOnlySpan<byte> tag)
    {
        for (var n = 0; n < U16(file, 4); n++)
        {
            var entry = file.Slice(12 + (16 * n), 16);
            if (entry[..4].SequenceEqual(tag))
            {
                return file.Slice((int)U32(entry, 8), (int)U32(entry, 12));
            }
        }

        throw new InvalidDataException($"The face has no table {Encoding.ASCII.GetString(tag)}.");
    }

    private static List<(int Character, int Glyph)> Characters(ReadOnlySpan<byte> cmap)
    {
        var map = Format4(cmap);
        var segments = U16(map, 6) / 2;
        var (ends, starts, deltas, offsets) = (14, 16 + (2 * segments), 16 + (4 * segments), 16 + (6 * segments));
        var found = new List<(int, int)>();
        for (var n = 0; n < segments; n++)
        {
            var (start, end) = (U16(map, starts + (2 * n)), U16(map, ends + (2 * n)));
            var (delta, offset) = (U16(map, deltas + (2 * n)), U16(map, offsets + (2 * n)));
            for (var character = start; character <= end && character != 0xFFFF; character++)
            {
                // An offset counts from its own place in the table; without one the glyph is the character plus the delta.
                var glyph = offset == 0 ? character : U16(map, offsets + (2 * n) + offset + (2 * (character - start)));
                var shifted = glyph == 0 ? 0 : (glyph + delta) & 0xFFFF;
                if (shifted != 0)
                {
                    found.Add((character, shifted));
                }
            }
        }

        return found;
    }

    private static ReadOnlySpan<byte> Format4(ReadOnlySpan<byte> cmap)
    {
        for (var n = 0; n < U16(cmap, 2); n++)
        {
            var map = cmap[(int)U32(cmap, 4 + (8 * n) + 4)..];
            if (U16(map, 0) == 4)
            {
                return map;
            }
        }

        throw new InvalidDataException("The face has no character map of format 4.");
    }

    private static int U16(ReadOnlySpan<byte> data, int at) => BinaryPrimitives.ReadUInt16BigEndian(data[at..]);

    private static uint U32(ReadOnlySpan<byte> data, int at) => BinaryPrimitives.ReadUInt32BigEndian(data[at..]);
}
