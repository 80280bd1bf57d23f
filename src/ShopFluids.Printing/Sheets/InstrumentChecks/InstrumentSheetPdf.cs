using ShopFluids.Core.Sheets.InstrumentChecks;
using ShopFluids.Printing.Pdf;

namespace ShopFluids.Printing.Sheets.InstrumentChecks;

/// <summary>Writes the instrument check log as PDF. The same sheet gives the same bytes, whenever and wherever it is written.</summary>
public static class InstrumentSheetPdf
{
    /// <exception cref="ArgumentException">Its time of printing is not in UTC.</exception>
    public static void Write(InstrumentSheet sheet, PaperSize paper, Stream output)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        PdfCanvas.Write(InstrumentSheetDocument.LayOut(sheet, paper), output);
    }
}
