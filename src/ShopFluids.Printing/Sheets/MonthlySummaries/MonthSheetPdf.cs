using ShopFluids.Core.Sheets.MonthlySummaries;
using ShopFluids.Printing.Pdf;

namespace ShopFluids.Printing.Sheets.MonthlySummaries;

/// <summary>Writes the monthly summary as PDF. The same sheet gives the same bytes, whenever and wherever it is written.</summary>
public static class MonthSheetPdf
{
    /// <exception cref="ArgumentException">Its time of printing is not in UTC.</exception>
    public static void Write(MonthSheet sheet, PaperSize paper, Stream output)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        PdfCanvas.Write(MonthSheetDocument.LayOut(sheet, paper), output);
    }
}
