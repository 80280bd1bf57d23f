using System.Runtime.InteropServices;

namespace ShopFluids.Printing.Charts;

/// <summary>A finished drawing in its own units, y downwards: what a page of the web and a printed sheet both paint.</summary>
public sealed record ChartDrawing(double Width, double Height, IReadOnlyList<ChartItem> Items);

/// <summary>
/// One stroke or shape. The class (see <see cref="ChartClass"/>) says what it means, never how it looks: the web styles it with
/// its style sheet, the printer with black ink.
/// </summary>
public abstract record ChartItem(string Class);

public sealed record ChartLine(string Class, double X1, double Y1, double X2, double Y2) : ChartItem(Class);

public sealed record ChartRect(string Class, double X, double Y, double Width, double Height) : ChartItem(Class);

public sealed record ChartCircle(string Class, double X, double Y, double Radius) : ChartItem(Class);

/// <summary>An open line through points.</summary>
public sealed record ChartPolyline(string Class, IReadOnlyList<ChartPoint> Points) : ChartItem(Class);

/// <summary>A closed, filled shape.</summary>
public sealed record ChartPolygon(string Class, IReadOnlyList<ChartPoint> Points) : ChartItem(Class);

/// <summary>Text on its baseline.</summary>
public sealed record ChartText(string Class, double X, double Y, string Text, ChartAnchor Anchor, double Size) : ChartItem(Class);

/// <summary>A verdict mark in a square of <paramref name="Size"/> about its centre.</summary>
public sealed record ChartMark(string Class, double X, double Y, double Size, VerdictMark Mark) : ChartItem(Class);

[StructLayout(LayoutKind.Auto)]
public readonly record struct ChartPoint(double X, double Y);

public enum ChartAnchor
{
    Start = 0,
    Middle = 1,
    End = 2,
}

/// <summary>The verdict marks; each is one shape, with a direction where the verdict has one.</summary>
public enum VerdictMark
{
    NotMeasured = 0,
    InRange = 1,
    WarningHigh = 2,
    WarningLow = 3,
    Action = 4,
    ActionHigh = 5,
    ActionLow = 6,
    Late = 7,
}
