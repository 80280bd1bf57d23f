using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Shared;

namespace ShopFluids.Web.Pages.Bench.Pictures;

/// <summary>Sumps side by side, as high as they are full: a litre is as high in both.</summary>
public sealed class SumpsLayout
{
    public const double Width = 700;
    public const double Height = 350;
    private const double SumpWidth = 150;
    private const double Top = 36;
    private const double Bottom = 286;
    private const double WordsApart = 19;
    private const double First = 40;
    private const double Second = 400;
    private const double Beside = 400;
    private const double BesideWidth = 190;
    private const double BelowTitle = 12;
    private const double BetweenGroups = 14;

    public SumpsLayout(BenchSumps picture, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(format);
        var isAlone = picture.Sumps.Count == 1 && picture.Beside.Count == 0;
        // A round tank that lies is as wide as it is high; beside others there is no room for that.
        var width = isAlone && picture.Sumps[0].Shape is HorizontalCylinderSump ? Bottom - Top : SumpWidth;
        var left = isAlone ? ((Width - width) / 2) - 60 : First;
        Sumps = [.. picture.Sumps.Select((s, i) => Of(s, i == 0 ? left : Second, width, picture.TopLitres, format))];
        var groups = new List<DrawnGroup>();
        var top = Top;
        foreach (var bars in picture.Beside)
        {
            var drawn = new BarsLayout(bars, format, BesideWidth);
            groups.Add(new DrawnGroup(bars.Title, Svg.Number(top), $"translate({Svg.Number(Beside)} {Svg.Number(top + BelowTitle)})", drawn));
            top += BelowTitle + drawn.Height + BetweenGroups;
        }

        Groups = groups;
    }

    public static string BesideX => Svg.Number(Beside);

    public IReadOnlyList<DrawnSump> Sumps { get; }

    /// <summary>Bars beside a single sump, from the top down.</summary>
    public IReadOnlyList<DrawnGroup> Groups { get; }

    private static DrawnSump Of(BenchSumpDrawing sump, double left, double width, double topLitres, ShopFormat format)
    {
        var outline = new SumpOutline(sump.Shape, topLitres, new SumpFrame(left, width, Top, Bottom));
        double Y(double litres) => outline.Y(litres);
        var marks = new List<DrawnSumpMark>();
        var words = double.NegativeInfinity;
        foreach (var mark in sump.Marks.OrderByDescending(m => m.Litres))
        {
            words = Math.Max(Y(mark.Litres), words + WordsApart);
            marks.Add(new DrawnSumpMark(format.Say(Texts.Bench_MarkAt, mark.Name, mark.LevelMm is { } level ? format.Length(level) : format.Volume(mark.Litres)), Svg.Number(Y(mark.Litres)), Svg.Number(words), Svg.Number(words + 4.5)));
        }

        var before = Math.Max(0, sump.FluidLitres - sump.AddedLitres);
        return new DrawnSump(
            left,
            width,
            outline.Inside(0, before),
            outline.Inside(before, sump.FluidLitres),
            [LineAt(outline, before), LineAt(outline, sump.FluidLitres)],
            outline.Wall,
            sump.Caption,
            sump.Remark,
            marks)
        {
            Pump = sump.IntakeLitres is { } intake ? PumpAt(outline, intake, Math.Min(intake, sump.FluidLitres)) : null,
        };
    }

    private static DrawnSurface LineAt(SumpOutline outline, double litres)
    {
        var (from, to) = outline.Surface(litres);
        return new DrawnSurface(Svg.Number(from), Svg.Number(to), Svg.Number(outline.Y(litres)));
    }

    // Its foot stands on the level at which it begins to draw air; the fluid below is of no use to it.
    private static DrawnPump PumpAt(SumpOutline outline, double intakeLitres, double deadLitres)
    {
        var (y, (from, to)) = (outline.Y(intakeLitres), outline.Surface(intakeLitres));
        var middle = from + ((to - from) * 0.75);
        return new DrawnPump(
            outline.Inside(0, deadLitres),
            $"M{Svg.Number(middle - 3.5)} {Svg.Number(Top - 20)}h7V{Svg.Number(y - 9)}h10v9h-27v-9h10z");
    }
}

/// <param name="Fluid">Outline of what was in it before.</param>
/// <param name="Added">Outline of what was added last; empty where nothing was.</param>
/// <param name="Surfaces">The surface before and now.</param>
public sealed record DrawnSump(double Left, double Width, string Fluid, string Added, IReadOnlyList<DrawnSurface> Surfaces, string Wall, string Caption, string Remark, IReadOnlyList<DrawnSumpMark> Marks)
{
    public DrawnPump? Pump { get; init; }

    public string Middle => Svg.Number(Left + (Width / 2));

    public string MarkLeft => Svg.Number(Left - 8);

    public string MarkRight => Svg.Number(Left + Width + 8);

    public string LeaderEnd => Svg.Number(Left + Width + 16);

    public string WordsX => Svg.Number(Left + Width + 20);
}

public sealed record DrawnSurface(string X1, string X2, string Y);

/// <param name="Dead">Outline of the fluid that the pump does not reach.</param>
public sealed record DrawnPump(string Dead, string Outline);

public sealed record DrawnGroup(string Title, string TitleY, string Place, BarsLayout Bars);

public sealed record DrawnSumpMark(string Words, string LineY, string LeaderY, string TextY);
