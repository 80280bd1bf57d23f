using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Shared;

namespace ShopFluids.Web.Pages.Bench.Pictures;

/// <summary>Sumps side by side, as high as they are full: a litre is as high in both.</summary>
public sealed class SumpsLayout
{
    public const double Width = 700;
    public const double Height = 350;
    public const double SumpWidth = 150;
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
        var left = picture.Sumps.Count == 1 && picture.Beside.Count == 0 ? (Width - SumpWidth) / 2 - 60 : First;
        Sumps = [.. picture.Sumps.Select((s, i) => Of(s, i == 0 ? left : Second, picture.TopLitres, format))];
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

    private static DrawnSump Of(BenchSumpDrawing sump, double left, double topLitres, ShopFormat format)
    {
        double Y(double litres) => Bottom - ((Bottom - Top) * Math.Clamp(litres / topLitres, 0, 1));
        var marks = new List<DrawnSumpMark>();
        var words = double.NegativeInfinity;
        foreach (var mark in sump.Marks.OrderByDescending(m => m.Litres))
        {
            words = Math.Max(Y(mark.Litres), words + WordsApart);
            marks.Add(new DrawnSumpMark(format.Say(Texts.Bench_MarkAt, mark.Name, mark.LevelMm is { } level ? format.Length(level) : format.Volume(mark.Litres)), Svg.Number(Y(mark.Litres)), Svg.Number(words), Svg.Number(words + 4.5)));
        }

        var surface = Y(sump.FluidLitres);
        var before = Y(Math.Max(0, sump.FluidLitres - sump.AddedLitres));
        return new DrawnSump(
            left,
            Svg.Number(surface),
            Svg.Number(before),
            Svg.Number(before - surface),
            Svg.Number(Bottom - before),
            $"M{Svg.Number(left - 1.5)} {Svg.Number(Top)}V{Svg.Number(Bottom + 1.5)}H{Svg.Number(left + SumpWidth + 1.5)}V{Svg.Number(Top)}",
            sump.Caption,
            sump.Remark,
            marks)
        {
            Pump = sump.IntakeLitres is { } intake ? PumpAt(left, Y(intake), Math.Max(surface, Y(intake))) : null,
        };
    }

    // Its foot stands on the level at which it begins to draw air; the fluid below is of no use to it.
    private static DrawnPump PumpAt(double left, double y, double deadTop)
    {
        var middle = left + (SumpWidth * 0.75);
        return new DrawnPump(
            Svg.Number(deadTop),
            Svg.Number(Bottom - deadTop),
            $"M{Svg.Number(middle - 3.5)} {Svg.Number(Top - 20)}h7V{Svg.Number(y - 9)}h10v9h-27v-9h10z");
    }
}

public sealed record DrawnSump(double Left, string SurfaceY, string BeforeY, string AddedHeight, string BeforeHeight, string Wall, string Caption, string Remark, IReadOnlyList<DrawnSumpMark> Marks)
{
    public DrawnPump? Pump { get; init; }

    public string X => Svg.Number(Left);

    public string Right => Svg.Number(Left + SumpsLayout.SumpWidth);

    public string Middle => Svg.Number(Left + (SumpsLayout.SumpWidth / 2));

    public string MarkLeft => Svg.Number(Left - 8);

    public string MarkRight => Svg.Number(Left + SumpsLayout.SumpWidth + 8);

    public string LeaderEnd => Svg.Number(Left + SumpsLayout.SumpWidth + 16);

    public string WordsX => Svg.Number(Left + SumpsLayout.SumpWidth + 20);
}

/// <param name="DeadY">Upper edge of the fluid that the pump does not reach.</param>
public sealed record DrawnPump(string DeadY, string DeadHeight, string Outline);

public sealed record DrawnGroup(string Title, string TitleY, string Place, BarsLayout Bars);

public sealed record DrawnSumpMark(string Words, string LineY, string LeaderY, string TextY);
