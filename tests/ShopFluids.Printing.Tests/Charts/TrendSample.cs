using ShopFluids.Core.Sheets;
using ShopFluids.Printing.Charts;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Tests.Sheets;
using ShopFluids.Rules;

namespace ShopFluids.Printing.Tests.Charts;

/// <summary>Small trends with values that are easy to reckon with.</summary>
internal static class TrendSample
{
    public const double Width = 700;
    public const double Height = 150;
    public static readonly DateTime From = new(2026, 3, 1, 23, 0, 0, DateTimeKind.Utc);
    public static readonly DateTime To = From.AddDays(60);
    public static readonly TrendChartWords Words = new("now", "warning {0}", "action {0}", "no readings");

    public static Trend Trend(IReadOnlyList<TrendPoint>? points = null, IReadOnlyList<TrendLimits>? limits = null, IReadOnlyList<DateTime>? additions = null) =>
        new("Concentration, % v/v", points ?? [], additions ?? [], limits ?? [], SampleSheet.Number, new(null, null, 2, 1));

    public static TrendPoint Point(double day, double value, Verdict verdict = Verdict.InRange, Direction direction = Direction.None, bool isSuperseded = false) =>
        new(From.AddDays(day), value, verdict, direction, isSuperseded);

    public static TrendLimits Limits(double fromDay = 0, double toDay = 60, double low = 5, double high = 11) =>
        new(From.AddDays(fromDay), From.AddDays(toDay), low, low + 1, low + 2, high - 2, high - 1, high);

    public static ChartDrawing Draw(Trend trend, DateTime? now = null, bool showsDays = true) =>
        TrendChartLayout.Draw(
            new TrendChartModel(trend, SampleSheet.Axis(From, To, now), Words, showsDays), Width, Height, PrintFonts.MeasureChartText);

    public static IReadOnlyList<T> All<T>(this ChartDrawing drawing, string name)
        where T : ChartItem => [.. drawing.Items.OfType<T>().Where(i => i.Class == name)];

    /// <summary>Every coordinate of a drawing.</summary>
    public static IEnumerable<(double X, double Y)> Coordinates(this ChartDrawing drawing) => drawing.Items.SelectMany(item => item switch
    {
        ChartLine l => [(l.X1, l.Y1), (l.X2, l.Y2)],
        ChartRect r => [(r.X, r.Y), (r.X + r.Width, r.Y + r.Height)],
        ChartCircle c => [(c.X, c.Y)],
        ChartPolyline p => p.Points.Select(q => (q.X, q.Y)),
        ChartPolygon p => p.Points.Select(q => (q.X, q.Y)),
        ChartMark m => [(m.X, m.Y)],
        ChartText t => [(t.X, t.Y)],
        _ => Array.Empty<(double, double)>(),
    });

    /// <summary>The height of a value, reckoned from two ticks of the scale.</summary>
    public static double HeightOf(this ChartDrawing drawing, double value)
    {
        var ticks = drawing.All<ChartText>(ChartClass.AxisText).Where(t => t.Anchor == ChartAnchor.End)
            .Select(t => (Value: double.Parse(t.Text, System.Globalization.CultureInfo.InvariantCulture), t.Y)).ToList();
        var (first, last) = (ticks[0], ticks[^1]);
        var shift = TrendChartSizes.Screen.Text * 0.34;
        return first.Y - shift + ((value - first.Value) / (last.Value - first.Value) * (last.Y - first.Y));
    }
}
