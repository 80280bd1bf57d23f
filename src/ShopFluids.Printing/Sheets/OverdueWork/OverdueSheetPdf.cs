using ShopFluids.Core.Sheets.OverdueWork;
using ShopFluids.Printing.Pdf;

namespace ShopFluids.Printing.Sheets.OverdueWork;

/// <summary>Writes the list of overdue work as PDF. The same sheet gives the same bytes, whenever and wherever it is written.</summary>
public static class OverdueSheetPdf
{
    /// <exception cref="ArgumentException">Its time of printing is not in UTC.</exception>
    public static void Write(OverdueSheet sheet, PaperSize paper, Stream output)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        PdfCanvas.Write(OverdueSheetDocument.LayOut(sheet, paper), output);
    }
}
