using ShopFluids.Core.Sheets;
using ShopFluids.Printing.Pdf;

namespace ShopFluids.Printing.Sheets.Labels;

/// <summary>Writes sump labels as PDF. The same labels give the same bytes, whenever and wherever they are written.</summary>
public static class SumpLabelsPdf
{
    /// <param name="labels">At least one.</param>
    /// <param name="size">Their size and how they stand on the paper.</param>
    /// <param name="paper">The paper of <see cref="LabelSize.Sheet"/>.</param>
    /// <param name="output">Where the file goes.</param>
    /// <exception cref="ArgumentException">There is no label, or the time of printing is not in UTC.</exception>
    public static void Write(SumpLabels labels, LabelSize size, PaperSize paper, Stream output)
    {
        ArgumentNullException.ThrowIfNull(labels);
        if (labels.Labels.Count == 0)
        {
            throw new ArgumentException("A file of labels holds at least one.", nameof(labels));
        }

        PdfCanvas.Write(SumpLabelsDocument.LayOut(labels, size, paper), output);
    }
}
