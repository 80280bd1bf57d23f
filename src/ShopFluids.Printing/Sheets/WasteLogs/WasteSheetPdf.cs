using ShopFluids.Core.Sheets.WasteLogs;
using ShopFluids.Printing.Pdf;

namespace ShopFluids.Printing.Sheets.WasteLogs;

/// <summary>Writes the waste log as PDF. The same sheet gives the same bytes, whenever and wherever it is written.</summary>
public static class WasteSheetPdf
{
    /// <exception cref="ArgumentException">Its time of printing is not in UTC.</exception>
    public static void Write(WasteSheet sheet, PaperSize paper, Stream output)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        PdfCanvas.Write(WasteSheetDocument.LayOut(sheet, paper), output);
    }
}
