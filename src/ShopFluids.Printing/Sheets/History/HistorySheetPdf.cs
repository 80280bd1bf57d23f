using ShopFluids.Core.Sheets;
using ShopFluids.Printing.Pdf;

namespace ShopFluids.Printing.Sheets.History;

/// <summary>Writes history sheets as PDF. The same sheet gives the same bytes, whenever and wherever it is written.</summary>
public static class HistorySheetPdf
{
    /// <summary>Writes the sheet of one sump.</summary>
    public static void Write(HistorySheet sheet, PaperSize paper, Stream output) => Write([sheet], paper, output);

    /// <summary>Writes the sheets of several sumps, such as those of one machine, into one file; each counts its own pages.</summary>
    /// <exception cref="ArgumentException"><paramref name="sheets"/> is empty, or its time of printing is not in UTC.</exception>
    public static void Write(IReadOnlyList<HistorySheet> sheets, PaperSize paper, Stream output)
    {
        if (sheets.Count == 0)
        {
            throw new ArgumentException("There is no sheet to write.", nameof(sheets));
        }

        PdfCanvas.Write(HistorySheetDocument.LayOut(sheets, paper), output);
    }
}
