using System.Globalization;
using System.Text;

namespace ShopFluids.Printing.Pdf;

/// <summary>Where the objects of a file stand, read from its cross-reference table, and its trailer.</summary>
/// <remarks>For files with one classic table, which is what PDFsharp writes; any other shape is refused.</remarks>
internal sealed record PdfObjects(IReadOnlyList<(int Number, int Start, int End)> Objects, string Trailer)
{
    private const int EntryLength = 20;

    public static PdfObjects Read(ReadOnlySpan<byte> file)
    {
        var tail = Encoding.Latin1.GetString(file[Last(file, "startxref"u8)..]);
        var table = int.Parse(tail.Split('\n')[1].Trim(), CultureInfo.InvariantCulture);
        var lines = Encoding.Latin1.GetString(file[table..]);
        var head = lines.Split('\n', 3);
        var range = head[1].Trim().Split(' ');
        if (head[0].Trim() != "xref" || range is not ["0", _])
        {
            throw new InvalidDataException("The file has no single cross-reference table.");
        }

        var first = head[0].Length + head[1].Length + 2;
        var starts = new List<(int Number, int Start)>();
        for (var number = 1; number < int.Parse(range[1], CultureInfo.InvariantCulture); number++)
        {
            starts.Add((number, int.Parse(lines.AsSpan(first + (number * EntryLength), 10), CultureInfo.InvariantCulture)));
        }

        var inOrder = starts.OrderBy(s => s.Start).ToList();
        var objects = inOrder.Select((s, n) => (s.Number, s.Start, n + 1 < inOrder.Count ? inOrder[n + 1].Start : table)).ToList();
        return new PdfObjects(objects, ReadTrailer(lines));
    }

    /// <summary>The trailer's dictionary, without the library's remark behind it, which names the version of the runtime.</summary>
    private static string ReadTrailer(string lines)
    {
        var start = lines.IndexOf("<<", lines.IndexOf("trailer", StringComparison.Ordinal), StringComparison.Ordinal);
        return lines[start..(lines.LastIndexOf(">>", StringComparison.Ordinal) + 2)];
    }

    private static int Last(ReadOnlySpan<byte> file, ReadOnlySpan<byte> word) =>
        file.LastIndexOf(word) is >= 0 and var at ? at : throw new InvalidDataException("The file has no cross-reference table.");
}
