using ShopFluids.Core.Sheets.LotTraces;
using ShopFluids.Printing.Pdf;

namespace ShopFluids.Printing.Sheets.LotTraces;

/// <summary>Writes lot trace sheets as PDF. The same sheets give the same bytes, whenever and wherever they are written.</summary>
public static class LotSheetPdf
{
    /// <summary>Writes the sheets of all lots of one number into one file; each counts its own pages.</summary>
    /// <exception cref="ArgumentException"><paramref name="sheets"/> is empty, or the time of printing is not in UTC.</exception>
    public static void Write(IReadOnlyList<LotSheet> sheets, PaperSize paper, Stream output)
    {
        ArgumentNullException.ThrowIfNull(sheets);
        if (sheets.Count == 0)
        {
            throw new ArgumentException("There is no sheet to write.", nameof(sheets));
        }

        var documents = sheets.Select(s => LotSheetDocument.LayOut(s, paper)).ToList();
        PdfCanvas.Write(documents[0] with { Pages = [.. documents.SelectMany(d => d.Pages)] }, output);
    }
}
