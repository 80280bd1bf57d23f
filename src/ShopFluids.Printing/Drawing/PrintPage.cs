using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Drawing;

/// <summary>One thing on a page, in points from the upper left corner. Black is 0, white is 1.</summary>
internal abstract record PageItem;

internal sealed record PageText(double X, double Baseline, string Text, PrintFace Face, double Size) : PageItem;

internal sealed record PageStroke(PagePath Path, double Width, double Grey, IReadOnlyList<double> Dashes) : PageItem;

internal sealed record PageFill(PagePath Path, double Grey) : PageItem;

internal sealed record PageDot(double X, double Y, double Radius, double Grey) : PageItem;

/// <summary>A page as a list of things to paint, in order; no library of any file format appears here.</summary>
internal sealed class PrintPage(double width, double height)
{
    private readonly List<PageItem> _items = [];

    public double Width => width;

    public double Height => height;

    public IReadOnlyList<PageItem> Items => _items;

    /// <summary>What a reader's list of contents calls this page; null where nothing leads to it.</summary>
    public string? Bookmark { get; set; }

    public void Text(double x, double baseline, string text, PrintFace face, double size)
    {
        var printable = PrintFonts.Printable(text, face);
        if (!string.IsNullOrWhiteSpace(printable))
        {
            _items.Add(new PageText(x, baseline, printable, face, size));
        }
    }

    public void TextRight(double right, double baseline, string text, PrintFace face, double size) =>
        Text(right - PrintFonts.Measure(text, face, size), baseline, text, face, size);

    public void Line(double x1, double y1, double x2, double y2, double strokeWidth, double grey = 0) =>
        Stroke(PagePath.Line(x1, y1, x2, y2), strokeWidth, grey);

    public void Stroke(PagePath path, double strokeWidth, double grey = 0, IReadOnlyList<double>? dashes = null) =>
        _items.Add(new PageStroke(path, strokeWidth, grey, dashes ?? []));

    public void Fill(PagePath path, double grey = 0) => _items.Add(new PageFill(path, grey));

    /// <summary>A filled circle.</summary>
    public void Dot(double x, double y, double radius, double grey = 0) => _items.Add(new PageDot(x, y, radius, grey));
}

/// <param name="Pages">Those of a long document are laid out one after the other as they are asked for, and anew each time.</param>
internal sealed record PrintDocument(IEnumerable<PrintPage> Pages, PrintDocumentInfo Info);

/// <summary>What the file says about itself. The instant of creation comes from the model: printing reads no clock.</summary>
internal sealed record PrintDocumentInfo(string Title, string Subject, string Author, string Language, DateTime CreatedUtc);
