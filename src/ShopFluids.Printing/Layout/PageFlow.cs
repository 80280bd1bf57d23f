using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Layout;

/// <summary>Fills pages from top to bottom, leaving room for the title block above and the foot below.</summary>
internal sealed class PageFlow
{
    private readonly List<PrintPage> _pages = [];
    private readonly PageEdges _edges;

    public PageFlow(PageEdges edges, double headHeight, double footHeight)
    {
        _edges = edges;
        Top = edges.Top + headHeight + SheetStyle.BlockGap;
        Bottom = edges.Bottom - footHeight;
        NewPage();
    }

    public IReadOnlyList<PrintPage> Pages => _pages;

    public PrintPage Page => _pages[^1];

    public double Left => _edges.Left;

    public double Right => _edges.Right;

    public double Width => Right - Left;

    public double Top { get; }

    public double Bottom { get; }

    public double Y { get; set; }

    public double Room => Bottom - Y;

    public bool IsAtTop => Y <= Top;

    public void NewPage()
    {
        _pages.Add(new PrintPage(_edges.PaperWidth, _edges.PaperHeight));
        Y = Top;
    }

    /// <summary>Goes to a new page if less than this is left, unless the page is still empty.</summary>
    public void Need(double height)
    {
        if (height > Room && !IsAtTop)
        {
            NewPage();
        }
    }

    /// <summary>A heading that stays with at least this much of what follows.</summary>
    public void Heading(string text, double keepWith)
    {
        Need(HeadingHeight + keepWith);
        HeadingAt(Left, Y, text);
        Y += HeadingHeight;
    }

    public void HeadingAt(double x, double y, string text) => Page.Text(x, y + (SheetStyle.Heading * 0.95), text, PrintFace.Bold, SheetStyle.Heading);

    public static double HeadingHeight => SheetStyle.Heading * 1.5;

    /// <summary>The gap after a block.</summary>
    public void EndBlock() => Y += SheetStyle.BlockGap;
}
