using UglyToad.PdfPig;

namespace ShopFluids.EndToEnd.Tests.Entering;

/// <summary>What another program reads from a sheet.</summary>
internal static class PdfText
{
    /// <summary>All words of all pages, one blank between them.</summary>
    public static string Of(byte[] pdf)
    {
        using var document = PdfDocument.Open(pdf);
        return string.Join(' ', document.GetPages().SelectMany(page => page.GetWords()).Select(word => word.Text));
    }
}
