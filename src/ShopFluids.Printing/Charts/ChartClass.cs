namespace ShopFluids.Printing.Charts;

/// <summary>The classes of chart items. They are the names of the style sheet too.</summary>
public static class ChartClass
{
    public const string Target = "c-target";
    public const string Grid = "c-grid";
    public const string Axis = "c-axis";
    public const string AxisText = "c-axis-text";
    public const string Warning = "c-warn";
    public const string Action = "c-act";
    public const string Line = "c-line";
    public const string Dot = "c-dot";
    public const string Mark = "c-mark";
    public const string Addition = "c-add";
    public const string Superseded = "c-old";
    public const string Now = "c-now";

    /// <summary>Text at the end of a limit line.</summary>
    public const string LimitText = "lim";

    /// <summary>The short stroke from a limit line to its text where the text had to move.</summary>
    public const string Leader = "c-lead";

    /// <summary>Title of a chart.</summary>
    public const string Title = "tt";
}
