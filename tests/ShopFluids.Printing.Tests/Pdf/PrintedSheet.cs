using System.Text;
using ShopFluids.Core.Sheets;
using ShopFluids.Printing.Sheets.History;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;

namespace ShopFluids.Printing.Tests.Pdf;

/// <summary>A written sheet as an independent reader of PDF sees it.</summary>
internal sealed class PrintedSheet : IDisposable
{
    private PrintedSheet(byte[] bytes)
    {
        Bytes = bytes;
        Document = PdfDocument.Open(bytes);
        Pages = [.. Document.GetPages()];
    }

    public byte[] Bytes { get; }

    public PdfDocument Document { get; }

    public IReadOnlyList<Page> Pages { get; }

    /// <param name="write">Writes the file.</param>
    public static PrintedSheet Of(Action<Stream> write)
    {
        using var output = new MemoryStream();
        write(output);
        return new(output.ToArray());
    }

    public static PrintedSheet Of(HistorySheet sheet, PaperSize paper = PaperSize.A4) => new(Write(sheet, paper));

    public static byte[] Write(HistorySheet sheet, PaperSize paper = PaperSize.A4)
    {
        using var output = new MemoryStream();
        HistorySheetPdf.Write(sheet, paper, output);
        return output.ToArray();
    }

    /// <summary>All text in the order of writing, without spaces: lines of a wrapped cell follow one another, but lose the space between.</summary>
    public string Text => Packed(string.Concat(Pages.Select(p => p.Text)));

    /// <summary>Whether a level line runs through the middle of a word.</summary>
    public static bool IsStruck(Page page, Word word) =>
        page.Paths.Select(p => p.GetBoundingRectangle()).Any(b =>
            b is { } box && box.Height < 1 && box.Left <= word.BoundingBox.Left + 1 && box.Right >= word.BoundingBox.Right - 1
            && box.Bottom > word.BoundingBox.Bottom + 1 && box.Top < word.BoundingBox.Top - 1);

    public string PageText(int page) => Packed(Pages[page - 1].Text);

    public static string Packed(string text)
    {
        var packed = new StringBuilder(text.Length);
        foreach (var character in text.Where(c => !char.IsWhiteSpace(c)))
        {
            packed.Append(character);
        }

        return packed.ToString();
    }

    public int Count(string text)
    {
        var (packed, wanted) = (Text, Packed(text));
        var (count, at) = (0, packed.IndexOf(wanted, StringComparison.Ordinal));
        while (at >= 0)
        {
            count++;
            at = packed.IndexOf(wanted, at + wanted.Length, StringComparison.Ordinal);
        }

        return count;
    }

    public void Dispose() => Document.Dispose();
}
