using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Components;
using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Shared;

namespace ShopFluids.Web.Shop.Entry.Levels;

public partial class LevelPicture
{
    private const double Top = 10;
    private const double Bottom = 190;
    private const double TankLeft = 64;
    private const double TankWidth = 150;
    private const double MarkFrom = TankLeft + TankWidth;
    private const double MarkTo = MarkFrom + 14;
    private const double WordsFrom = MarkTo + 6;
    private const double TextDown = 5;
    private const double LineOfText = 17;
    private const int MostLabels = 6;

    // A sloped wall in so many pieces is smooth enough at this size, and light.
    private const int Parts = 40;

    private static readonly double[] MillimetreSteps = [10, 20, 50, 100, 200, 500, 1000, 2000, 5000];
    private static readonly double[] InchSteps = [0.5, 1, 2, 4, 8, 20, 40, 80, 200];

    private SumpGeometry? _shape;
    private string _fluid = "";
    private string _wall = "";
    private string _ticks = "";
    private string? _now;
    private List<(string Y, string Text)> _labels = [];
    private (string Y, string WordsY) _full;
    private (string Y, string WordsY) _intake;

    [Parameter, EditorRequired] public required EntryView View { get; set; }

    [Parameter, EditorRequired] public required EntryField Field { get; set; }

    /// <summary>The box that a tap fills.</summary>
    [Parameter, EditorRequired] public required string Box { get; set; }

    protected override void OnParametersSet()
    {
        if (View.Visit.Setup.FindSump(View.Page.Place.SumpId) is not { } sump)
        {
            _shape = null;
            return;
        }

        _shape = sump.Geometry;
        var outline = new SumpOutline(_shape, _shape.BrimLitres, new SumpFrame(TankLeft, TankWidth, Top, Bottom), Parts);
        _wall = outline.Wall;
        _fluid = (View.Page.FilledToMm ?? (double?)Field.Last?.Value) is { } level ? outline.Inside(_shape.BottomLitres, _shape.VolumeLitresAt(Math.Clamp(level, 0, _shape.BrimMm))) : "";
        _now = View.Measured(Field) is { } measured ? Svg.Number(Y((double)measured.Value)) : null;
        (_ticks, _labels) = Scale();
        var (full, intake) = (Y((double)sump.FullMarkMm), Y((double)sump.PumpIntakeMm));
        _full = (Svg.Number(full), Svg.Number(full + TextDown));

        // Words that would stand in each other give way downwards.
        _intake = (Svg.Number(intake), Svg.Number(Math.Max(intake, full + LineOfText) + TextDown));
    }

    private double Y(double levelMm) => Bottom - ((Bottom - Top) * Math.Clamp(levelMm / Brim, 0, 1));

    private double Brim => _shape?.BrimMm ?? 1;

    private static string Millimetres(double value) => value.ToString(CultureInfo.InvariantCulture);

    // Like a rule held into the sump, in the person's unit; the lowest figure says which.
    private (string Ticks, List<(string Y, string Text)> Labels) Scale()
    {
        var format = View.Visit.Format;
        var isInch = format.Units == UnitSystem.UsCustomary;
        var millimetres = isInch ? LengthUnits.MillimetresFromInches(1) : 1;
        var steps = isInch ? InchSteps : MillimetreSteps;
        var step = steps.FirstOrDefault(s => Brim / (s * millimetres) <= MostLabels, steps[^1]);
        var decimals = step < 1 ? 1 : 0;
        var (ticks, labels) = (new StringBuilder(), new List<(string, string)>());
        for (var half = 0; half * step * millimetres / 2 <= Brim; half++)
        {
            var y = Y(half * step * millimetres / 2);
            ticks.Append(half % 2 == 0 ? "M50 " : "M54 ").Append(Svg.Number(y)).Append(half % 2 == 0 ? "h8" : "h4");
            if (half % 2 == 0)
            {
                var number = format.Number(half * step / 2, decimals);
                labels.Add((Svg.Number(y + TextDown), half == 0 ? $"{number} {(isInch ? "in" : "mm")}" : number));
            }
        }

        return (ticks.ToString(), labels);
    }
}
