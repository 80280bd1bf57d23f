using PdfSharp.Drawing;
using PdfSharp.Pdf;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Pdf;

/// <summary>Paints laid-out pages with PDFsharp. The only place, with <see cref="EmbeddedFontResolver"/> and <see cref="ColourProfile"/>, that knows the library.</summary>
internal static class PdfCanvas
{
    // PDFsharp shares its font caches across documents; one page at a time keeps that safe, and a file of many sheets lets a single one pass.
    private static readonly Lock Painting = new();

    /// <exception cref="ArgumentException">The time of printing is not in UTC.</exception>
    public static void Write(PrintDocument document, Stream output)
    {
        if (document.Info.CreatedUtc.Kind != DateTimeKind.Utc)
        {
            // Any other kind would be read in the server's own time zone and give other bytes elsewhere.
            throw new ArgumentException("The time of printing must be in UTC.", nameof(document));
        }

        using var raw = new MemoryStream();
        using var pdf = new PdfDocument();
        var fonts = new Dictionary<(PrintFace Face, double Size), XFont>();
        lock (Painting)
        {
            EmbeddedFontResolver.Register();
            Describe(pdf, document.Info);
            ColourProfile.Declare(pdf);
        }

        foreach (var page in document.Pages)
        {
            lock (Painting)
            {
                Paint(pdf, page, fonts);
            }
        }

        lock (Painting)
        {
            pdf.Save(raw, closeStream: false);
        }

        PdfFinish.Write(raw.ToArray(), output);
    }

    private static void Describe(PdfDocument pdf, PrintDocumentInfo info)
    {
        pdf.Info.Title = info.Title;
        pdf.Info.Subject = info.Subject;
        pdf.Info.Author = info.Author;
        pdf.Info.Creator = "ShopFluids";
        pdf.Info.CreationDate = info.CreatedUtc;
        pdf.Language = info.Language;
        pdf.Options.CompressContentStreams = true;
        pdf.ViewerPreferences.DisplayDocTitle = true;
    }

    private static void Paint(PdfDocument pdf, PrintPage source, Dictionary<(PrintFace Face, double Size), XFont> fonts)
    {
        var page = pdf.AddPage();
        if (source.Bookmark is { } bookmark)
        {
            pdf.Outlines.Add(bookmark, page);
        }

        page.Width = XUnit.FromPoint(source.Width);
        page.Height = XUnit.FromPoint(source.Height);
        using var graphics = XGraphics.FromPdfPage(page);
        foreach (var item in source.Items)
        {
            switch (item)
            {
                case PageText text:
                    graphics.DrawString(text.Text, Font(text, fonts), XBrushes.Black, text.X, text.Baseline);
                    break;
                case PageStroke { Path.Steps: [{ Kind: PathStepKind.Move } from, { Kind: PathStepKind.Line } to] } line:
                    graphics.DrawLine(Pen(line), from.X, from.Y, to.X, to.Y);
                    break;
                case PageStroke stroke:
                    graphics.DrawPath(Pen(stroke), Outline(stroke.Path));
                    break;
                case PageDot dot:
                    // A line of no length with round ends is a filled circle (PDF 32000-1:2008, 8.5.3.2), in one point in place of the thirteen of four curves: charts have thousands.
                    graphics.DrawLine(new XPen(XColor.FromGrayScale(dot.Grey), 2 * dot.Radius) { LineCap = XLineCap.Round }, dot.X, dot.Y, dot.X, dot.Y);
                    break;
                case PageFill fill:
                    graphics.DrawPath(new XSolidBrush(XColor.FromGrayScale(fill.Grey)), Outline(fill.Path));
                    break;
                default:
                    throw new NotSupportedException($"A {item.GetType().Name} has no way into a PDF.");
            }
        }
    }

    // The library looks a font up by its name each time one is made.
    private static XFont Font(PageText text, Dictionary<(PrintFace Face, double Size), XFont> fonts)
    {
        if (!fonts.TryGetValue((text.Face, text.Size), out var font))
        {
            font = new XFont(EmbeddedFontResolver.Family(text.Face), text.Size, XFontStyleEx.Regular, XPdfFontOptions.UnicodeDefault);
            fonts.Add((text.Face, text.Size), font);
        }

        return font;
    }

    private static XPen Pen(PageStroke stroke)
    {
        var pen = new XPen(XColor.FromGrayScale(stroke.Grey), stroke.Width) { LineJoin = XLineJoin.Round };
        if (stroke.Dashes.Count > 0)
        {
            // The library counts dashes in pen widths.
            pen.DashPattern = [.. stroke.Dashes.Select(d => d / stroke.Width)];
        }

        return pen;
    }

    private static XGraphicsPath Outline(PagePath path)
    {
        var outline = new XGraphicsPath { FillMode = XFillMode.Winding };
        var at = new XPoint(0, 0);
        foreach (var step in path.Steps)
        {
            var to = new XPoint(step.X, step.Y);
            switch (step.Kind)
            {
                case PathStepKind.Move:
                    outline.StartFigure();
                    break;
                case PathStepKind.Line:
                    outline.AddLine(at, to);
                    break;
                case PathStepKind.Curve:
                    outline.AddBezier(at, new XPoint(step.X1, step.Y1), new XPoint(step.X2, step.Y2), to);
                    break;
                default:
                    outline.CloseFigure();
                    break;
            }

            at = to;
        }

        return outline;
    }
}
