using System.Diagnostics;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using ShopFluids.Core.Sheets;
using ShopFluids.Printing;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Pdf;
using ShopFluids.Printing.Sheets.History;
using ShopFluids.Printing.Tests.Sheets;

namespace ShopFluids.Benchmarks;

/// <summary>
/// History sheets laid out and written, beside drawing the same texts, lines and areas with the PDF library and nothing else: the floor knows
/// where everything goes, breaks no table and finishes no file.
/// </summary>
internal static class PrintHistory
{
    private const int Runs = 10;
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(4);

    /// <summary>A sheet of so many readings, each of them in each of four charts.</summary>
    public static HistorySheet Sheet(int readings)
    {
        var sheet = SampleSheet.WithReadings(readings);
        var (from, span) = (sheet.Trends.Axis.FromUtc, sheet.Trends.Axis.ToUtc - sheet.Trends.Axis.FromUtc);
        var charts = sheet.Trends.Charts.Append(sheet.Trends.Charts[0] with { Title = "Concentration again" })
            .Select(chart => chart with { Points = [.. Enumerable.Range(0, readings).Select(n => chart.Points[n % chart.Points.Count] with { AtUtc = from + (span * ((n + 0.5) / readings)) })] });
        return sheet with { Trends = sheet.Trends with { Charts = [.. charts] } };
    }

    /// <summary>Milliseconds of one sheet, and of drawing what stands on its pages.</summary>
    public static (double Ours, double Floor) BesideFloor(HistorySheet sheet)
    {
        EmbeddedFontResolver.Register();
        var pages = HistorySheetDocument.LayOut([sheet], PaperSize.A4).Pages.ToList();
        return Best(() => Write([sheet]), () => Draw(pages));
    }

    /// <summary>Milliseconds of some sheets in one file, and of one sheet, as often as it takes to last as long.</summary>
    public static (double Ours, double One) BesideOne(IReadOnlyList<HistorySheet> sheets, HistorySheet one, int times)
    {
        var (ours, often) = Best(() => Write(sheets), () =>
        {
            for (var n = 0; n < times; n++)
            {
                Write([one]);
            }
        });
        return (ours, often / times);
    }

    private static void Write(IReadOnlyList<HistorySheet> sheets) => HistorySheetPdf.Write(sheets, PaperSize.A4, Stream.Null);

    // Both are measured when their code is compiled for good, which takes a moment of running, and by turns: other work on the machine slows both.
    private static (double Ours, double Floor) Best(Action ours, Action floor)
    {
        for (var began = Stopwatch.GetTimestamp(); Stopwatch.GetElapsedTime(began) < WarmUp;)
        {
            ours();
            floor();
        }

        var (best, bestFloor) = (double.MaxValue, double.MaxValue);
        for (var n = 0; n < Runs; n++)
        {
            best = Math.Min(best, Milliseconds(ours));
            bestFloor = Math.Min(bestFloor, Milliseconds(floor));
        }

        return (best, bestFloor);
    }

    private static double Milliseconds(Action run)
    {
        var started = Stopwatch.GetTimestamp();
        run();
        return Stopwatch.GetElapsedTime(started).TotalMilliseconds;
    }

    private static void Draw(IReadOnlyList<PrintPage> pages)
    {
        using var pdf = new PdfDocument();
        pdf.Options.CompressContentStreams = true;
        var fonts = new Dictionary<(PrintFace Face, double Size), XFont>();
        foreach (var source in pages)
        {
            var page = pdf.AddPage();
            (page.Width, page.Height) = (XUnit.FromPoint(source.Width), XUnit.FromPoint(source.Height));
            using var graphics = XGraphics.FromPdfPage(page);
            foreach (var item in source.Items)
            {
                Draw(graphics, item, fonts);
            }
        }

        using var file = new MemoryStream();
        pdf.Save(file, closeStream: false);
    }

    private static void Draw(XGraphics graphics, PageItem item, Dictionary<(PrintFace Face, double Size), XFont> fonts)
    {
        switch (item)
        {
            case PageText text:
                if (!fonts.TryGetValue((text.Face, text.Size), out var font))
                {
                    font = new XFont(EmbeddedFontResolver.Family(text.Face), text.Size, XFontStyleEx.Regular, XPdfFontOptions.UnicodeDefault);
                    fonts.Add((text.Face, text.Size), font);
                }

                graphics.DrawString(text.Text, font, XBrushes.Black, text.X, text.Baseline);
                break;
            case PageStroke { Path.Steps: [{ Kind: PathStepKind.Move } from, { Kind: PathStepKind.Line } to] } line:
                graphics.DrawLine(new XPen(XColor.FromGrayScale(line.Grey), line.Width), from.X, from.Y, to.X, to.Y);
                break;
            case PageStroke stroke:
                graphics.DrawPath(new XPen(XColor.FromGrayScale(stroke.Grey), stroke.Width), Outline(stroke.Path));
                break;
            case PageDot dot:
                graphics.DrawLine(new XPen(XColor.FromGrayScale(dot.Grey), 2 * dot.Radius) { LineCap = XLineCap.Round }, dot.X, dot.Y, dot.X, dot.Y);
                break;
            case PageFill fill:
                graphics.DrawPath(new XSolidBrush(XColor.FromGrayScale(fill.Grey)), Outline(fill.Path));
                break;
            default:
                throw new NotSupportedException($"The floor cannot draw a {item.GetType().Name}.");
        }
    }

    private static XGraphicsPath Outline(PagePath path)
    {
        var outline = new XGraphicsPath();
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
