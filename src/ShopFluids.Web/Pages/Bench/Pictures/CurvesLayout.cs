using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Charts;
using ShopFluids.Web.Components.Shared;

namespace ShopFluids.Web.Pages.Bench.Pictures;

/// <summary>Lines and points over one pair of axes, with the names of lines beside their ends.</summary>
public sealed class CurvesLayout
{
    public const double Width = 700;
    public const double Height = 360;
    public const double Left = 64;
    public const double Right = 556;
    public const double Top = 30;
    public const double Bottom = 312;
    private const int MostTicks = 6;
    private const double WordsApart = 17;
    private const double Margin = 0.06;
    private readonly Axis _x;
    private readonly Axis _y;

    public CurvesLayout(BenchCurves picture, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(format);
        XTitle = picture.XUnit.Length == 0 ? picture.XTitle : QuantityInput.Preferred(0, picture.XUnit, format.Units).Unit;
        YTitle = picture.YUnit.Length == 0 ? picture.YTitle : QuantityInput.Preferred(0, picture.YUnit, format.Units).Unit;
        picture = InUnits(picture, format.Units);
        var points = picture.Curves.SelectMany(c => c.Points).ToList();
        _x = Axis.Over(points.Min(p => p.X), points.Max(p => p.X), 0);
        var heights = points.Select(p => p.Y).Concat(picture.Levels.Select(l => l.Y)).ToList();
        _y = Axis.Over(heights.Min(), heights.Max(), Margin);
        XTicks = [.. AxisTicks.Over(_x.Low, _x.High, MostTicks).Select(t => new DrawnTick(Svg.Number(X(t.Value)), format.Number(t.Value, t.Decimals)))];
        YTicks = [.. AxisTicks.Over(_y.Low, _y.High, MostTicks).Select(t => new DrawnTick(Svg.Number(Y(t.Value)), format.Number(t.Value, t.Decimals)))];
        Curves = [.. picture.Curves.Select(c => new DrawnCurve(
            c.Kind,
            string.Join(' ', c.Points.Select(p => $"{Svg.Number(X(p.X))},{Svg.Number(Y(p.Y))}")),
            [.. c.Points.Select(p => (Svg.Number(X(p.X)), Svg.Number(Y(p.Y))))]))];
        Levels = [.. picture.Levels.Select(l => Svg.Number(Y(l.Y)))];
        Names = Apart(
        [
            .. picture.Curves.Where(c => c.Name.Length > 0).Select(c => (c.Name, Y(c.Points[^1].Y))),
            .. picture.Levels.Select(l => (l.Name, Y(l.Y))),
        ]);
    }

    public string XTitle { get; }

    public string YTitle { get; }

    public IReadOnlyList<DrawnTick> XTicks { get; }

    public IReadOnlyList<DrawnTick> YTicks { get; }

    public IReadOnlyList<DrawnCurve> Curves { get; }

    public IReadOnlyList<string> Levels { get; }

    public IReadOnlyList<DrawnName> Names { get; }

    private static BenchCurves InUnits(BenchCurves picture, UnitSystem units)
    {
        double X(double x) => QuantityInput.Preferred(x, picture.XUnit, units).Value;
        double Y(double y) => QuantityInput.Preferred(y, picture.YUnit, units).Value;
        return picture with
        {
            Curves = [.. picture.Curves.Select(c => c with { Points = [.. c.Points.Select(p => (X(p.X), Y(p.Y)))] })],
            Levels = [.. picture.Levels.Select(l => l with { Y = Y(l.Y) })],
        };
    }

    private double X(double value) => Left + ((Right - Left) * _x.Share(value));

    private double Y(double value) => Bottom - ((Bottom - Top) * _y.Share(value));

    // From the top down, each name at least a line below the one before it; where they run out at the bottom, all move up.
    private static List<DrawnName> Apart(IEnumerable<(string Name, double Y)> names)
    {
        var placed = new List<(string Name, double Y)>();
        foreach (var (name, y) in names.OrderBy(n => n.Y))
        {
            placed.Add((name, placed.Count == 0 ? y : Math.Max(y, placed[^1].Y + WordsApart)));
        }

        var over = placed.Count == 0 ? 0 : Math.Max(0, placed[^1].Y - Bottom);
        return [.. placed.Select(p => new DrawnName(p.Name, Svg.Number(p.Y - over + 4.5)))];
    }

    private sealed record Axis(double Low, double High)
    {
        public static Axis Over(double low, double high, double margin)
        {
            // A flat line still needs a height to lie in.
            var span = high > low ? high - low : Math.Max(Math.Abs(high), 1);
            return high > low ? new Axis(low - (span * margin), high + (span * margin)) : new Axis(low - (span / 2), high + (span / 2));
        }

        public double Share(double value) => (value - Low) / (High - Low);
    }
}

public sealed record DrawnTick(string At, string Words);

public sealed record DrawnCurve(BenchCurveKind Kind, string Points, IReadOnlyList<(string X, string Y)> Dots);

public sealed record DrawnName(string Name, string Y);
