using ShopFluids.Calculations.Volumes;

namespace ShopFluids.Core.Bench.Answers;

/// <summary>What the drawing beside a result shows; how it is drawn is the page's.</summary>
public abstract record BenchPicture;

/// <summary>One or two sumps in cross-section, before and after.</summary>
/// <param name="TopLitres">Volume at the upper edge of the drawing.</param>
public sealed record BenchSumps(double TopLitres, IReadOnlyList<BenchSumpDrawing> Sumps) : BenchPicture
{
    /// <summary>Amounts that stand beside a single sump.</summary>
    public IReadOnlyList<BenchBars> Beside { get; init; } = [];
}

/// <param name="Caption">Below the sump, such as 160 L at 8.1 %.</param>
/// <param name="FluidLitres">How much is in it.</param>
/// <param name="AddedLitres">How much of that was added last.</param>
public sealed record BenchSumpDrawing(string Caption, string Remark, double FluidLitres, double AddedLitres, IReadOnlyList<BenchMark> Marks)
{
    /// <summary>Where the pump takes in; what is below is of no use to it. Null where no pump is drawn.</summary>
    public double? IntakeLitres { get; init; }

    /// <summary>The shape in which it is drawn; null for a plain one, in which only the volumes are known.</summary>
    public SumpGeometry? Shape { get; init; }
}

/// <summary>A level with its name.</summary>
/// <param name="LevelMm">What is written beside the name; null to write the volume.</param>
public sealed record BenchMark(string Name, double Litres, double? LevelMm = null);

/// <summary>Amounts side by side.</summary>
public sealed record BenchBars(string Unit, IReadOnlyList<BenchBar> Bars) : BenchPicture
{
    /// <summary>Above the bars; empty where the page says it already.</summary>
    public string Title { get; init; } = "";
}

public sealed record BenchBar(string Name, double Value, int Decimals);

/// <summary>Lines and points over one pair of axes.</summary>
public sealed record BenchCurves(string XTitle, string YTitle, IReadOnlyList<BenchCurve> Curves, IReadOnlyList<BenchLevel> Levels) : BenchPicture
{
    /// <summary>Canonical unit of x, where the person may prefer another: the axis is then named by it. Empty where not.</summary>
    public string XUnit { get; init; } = "";

    /// <summary>The same of y.</summary>
    public string YUnit { get; init; } = "";
}

/// <param name="Points">By ascending x; at least one.</param>
public sealed record BenchCurve(string Name, BenchCurveKind Kind, IReadOnlyList<(double X, double Y)> Points);

public enum BenchCurveKind
{
    /// <summary>A drawn line.</summary>
    Line,

    /// <summary>A dashed line: a forecast or something to compare with.</summary>
    Dashed,

    /// <summary>Points, as measured.</summary>
    Points,

    /// <summary>Rings around points that lie beyond the limits of a chart.</summary>
    Rings,
}

/// <summary>A level across the drawing, such as a limit.</summary>
public sealed record BenchLevel(string Name, double Y);
