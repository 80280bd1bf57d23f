using ShopFluids.Core.Sheets;
using ShopFluids.Printing.Pdf;

namespace ShopFluids.Printing.Sheets.Round;

/// <summary>Writes the blank round sheet as PDF. The same sheet gives the same bytes, whenever and wherever it is written.</summary>
public static class RoundSheetPdf
{
    /// <exception cref="ArgumentException">Its time of printing is not in UTC.</exception>
    public static void Write(RoundSheet sheet, PaperSize paper, Stream output)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        PdfCanvas.Write(RoundSheetDocument.LayOut(sheet, paper), output);
    }
}
