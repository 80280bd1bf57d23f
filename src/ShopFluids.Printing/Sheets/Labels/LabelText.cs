using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.Labels;

/// <summary>Text that must stay inside a small space: long names are set smaller, then broken, and only then cut.</summary>
internal static class LabelText
{
    private const double LineHeight = 1.22;

    /// <summary>One line as large as it fits.</summary>
    /// <returns>The size it was set in.</returns>
    public static double Fitted(PrintPage page, string text, double x, double baseline, double width, PrintFace face, double size, bool fromRight = false)
    {
        var wide = PrintFonts.Measure(text, face, size);
        var fitted = wide > width ? size * width / wide : size;
        page.Text(fromRight ? x + width - PrintFonts.Measure(text, face, fitted) : x, baseline, text, face, fitted);
        return fitted;
    }

    /// <summary>Up to so many lines from a top edge.</summary>
    /// <returns>The bottom edge of what was set.</returns>
    public static double Lines(PrintPage page, string text, double x, double top, double width, PrintFace face, double size, int most)
    {
        var lines = TextLines.Break(text, face, size, width);
        foreach (var line in lines.Take(most))
        {
            page.Text(x, top + size, line, face, size);
            top += size * LineHeight;
        }

        return top;
    }
}
