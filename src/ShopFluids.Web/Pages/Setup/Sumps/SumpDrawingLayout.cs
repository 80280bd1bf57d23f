using ShopFluids.Calculations.Volumes;
using ShopFluids.Web.Components.Shared;

namespace ShopFluids.Web.Pages.Setup.Sumps;

/// <summary>A mark of the drawing: where it lies and where its words stand, so that words of near marks do not cover each other.</summary>
public sealed record DrawnMark(double Y, double WordsY, double LevelMm, double Litres)
{
    public string LineY => Svg.Number(Y);

    public string TextY => Svg.Number(WordsY + 5);

    public string LeaderY => Svg.Number(WordsY);
}

/// <summary>The cross-section of a sump: as wide at each level as a millimetre of level holds litres there.</summary>
public sealed class SumpDrawingLayout
{
    public const double Width = 460;
    public const double Height = 250;
    public const double Left = 16;
    public const double Right = 236;
    private const double Top = 24;
    private const double Bottom = 226;
    private const double WordsApart = 20;

    private readonly SumpGeometry _geometry;

    public SumpDrawingLayout(SumpGeometry geometry, double? fullMarkMm, double? pumpIntakeMm)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        _geometry = geometry;
        double[] levels = [geometry.BrimMm, .. InOrder(fullMarkMm), .. InOrder(pumpIntakeMm)];
        var wordsY = double.NegativeInfinity;
        var marks = new Dictionary<double, DrawnMark>();
        foreach (var level in levels.Distinct().OrderDescending())
        {
            wordsY = Math.Max(Y(level), wordsY + WordsApart);
            marks[level] = new DrawnMark(Y(level), wordsY, level, geometry.VolumeLitresAt(level));
        }

        Brim = marks[geometry.BrimMm];
        FullMark = fullMarkMm is { } full ? marks.GetValueOrDefault(full) : null;
        PumpIntake = pumpIntakeMm is { } intake ? marks.GetValueOrDefault(intake) : null;
    }

    public DrawnMark Brim { get; }

    /// <summary>Null while it is not typed or lies outside.</summary>
    public DrawnMark? FullMark { get; }

    public DrawnMark? PumpIntake { get; }

    /// <summary>The wall up to the brim.</summary>
    public string Wall => Outline(_geometry.BrimMm);

    /// <summary>The fluid up to the full mark; empty while there is none.</summary>
    public string Fluid => FullMark is { LevelMm: > 0 } full ? Outline(full.LevelMm) : "";

    private IEnumerable<double> InOrder(double? levelMm) => levelMm is { } level && level >= 0 && level <= _geometry.BrimMm ? [level] : [];

    private double Y(double levelMm) => Bottom - ((Bottom - Top) * levelMm / _geometry.BrimMm);

    private string Outline(double upToMm)
    {
        var corners = Steps(upToMm);
        var right = corners.Select(c => (X: Middle + c.Half, c.Y));
        var left = corners.AsEnumerable().Reverse().Select(c => (X: Middle - c.Half, c.Y));
        return string.Join(' ', right.Concat(left).Select(p => $"{Svg.Number(p.X)},{Svg.Number(p.Y)}"));
    }

    private static double Middle => (Left + Right) / 2;

    // Half widths from the bottom up; a table changes its width at each of its points.
    private List<(double Half, double Y)> Steps(double upToMm)
    {
        double[] points = _geometry is StrappingTableSump table ? [.. table.Points.Select(p => p.LevelMm)] : [0, _geometry.BrimMm];
        var slopes = points.Zip(points.Skip(1), (low, high) => (Low: low, High: high, Slope: (_geometry.VolumeLitresAt(high) - _geometry.VolumeLitresAt(low)) / (high - low))).ToList();
        var widest = slopes.Max(s => s.Slope);
        var corners = new List<(double, double)>();
        foreach (var part in slopes.Where(s => s.Low < upToMm))
        {
            var half = (Right - Left) / 2 * part.Slope / widest;
            corners.Add((half, Y(part.Low)));
            corners.Add((half, Y(Math.Min(part.High, upToMm))));
        }

        return corners;
    }
}
