using ShopFluids.Core.Sheets.DosingLogs;
using ShopFluids.Printing.Pdf;

namespace ShopFluids.Printing.Sheets.DosingLogs;

/// <summary>Writes the dosing log as PDF. The same sheet gives the same bytes, whenever and wherever it is written.</summary>
public static class DoseSheetPdf
{
    /// <exception cref="ArgumentException">Its time of printing is not in UTC.</exception>
    public static void Write(DoseSheet sheet, PaperSize paper, Stream output)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        PdfCanvas.Write(DoseSheetDocument.LayOut(sheet, paper), output);
    }
}
