namespace ShopFluids.Printing.Charts;

/// <summary>Width of a text at a size, in the unit of the size.</summary>
public delegate double TextMeasure(string text, double size, bool isBold);

/// <summary>How large the parts of a chart are, in the units of the drawing.</summary>
public sealed record TrendChartSizes(double Text, double Title, double DotRadius, double Mark)
{
    /// <summary>For a screen, in pixels of the style sheet.</summary>
    public static TrendChartSizes Screen { get; } = new(Text: 12, Title: 15, DotRadius: 4, Mark: 16);

    /// <summary>For paper, in points.</summary>
    public static TrendChartSizes Paper { get; } = new(Text: 7.6, Title: 9, DotRadius: 2.6, Mark: 10.5);
}

/// <summary>The room left and right of the plots; charts that share a time axis share it.</summary>
public sealed record TrendChartFrame(double Left, double Right);
