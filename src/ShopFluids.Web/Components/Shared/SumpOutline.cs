using System.Text;
using ShopFluids.Calculations.Volumes;

namespace ShopFluids.Web.Components.Shared;

/// <summary>
/// A sump cut through: at each level as wide as its surface there, so that what is drawn full is full. Where only volumes are known, a box on
/// which a litre is as high everywhere.
/// </summary>
internal sealed class SumpOutline
{
    private const int FineParts = 120;

    private readonly SumpGeometry? _shape;
    private readonly double _topLitres;
    private readonly SumpFrame _frame;
    private readonly int _parts;
    private readonly double _widest;

    /// <param name="parts">Pieces of a wall that is not straight: fewer make a lighter page.</param>
    public SumpOutline(SumpGeometry? shape, double topLitres, SumpFrame frame, int parts = FineParts)
    {
        (_shape, _topLitres, _frame, _parts) = (shape, topLitres, frame, parts);
        _widest = shape is null ? 1 : Enumerable.Range(0, parts + 1).Max(i => shape.SurfaceLitresPerMmAt(shape.BrimMm * i / parts));
    }

    /// <summary>Down the drawing.</summary>
    public double Y(double litres) => At(Share(litres));

    /// <summary>The inside between two volumes; empty where there is nothing between them.</summary>
    public string Inside(double fromLitres, double toLitres)
    {
        var (from, to) = (Share(fromLitres), Share(toLitres));
        return to > from ? $"{Side(from, to, Left, 'M')}{Side(to, from, Right, 'L')}Z" : "";
    }

    /// <summary>The walls, from the upper edge on the left over the bottom to the upper edge on the right.</summary>
    public string Wall => $"{Side(1, 0, s => Left(s) - 1.5, 'M')}{Side(0, 1, s => Right(s) + 1.5, 'L')}";

    /// <summary>Both ends of the surface at a volume.</summary>
    public (double Left, double Right) Surface(double litres) => (Left(Share(litres)), Right(Share(litres)));

    private double Share(double litres) => _shape is null
        ? Math.Clamp(litres / _topLitres, 0, 1)
        : _shape.LevelMmAt(Math.Clamp(litres, _shape.BottomLitres, _shape.BrimLitres)) / _shape.BrimMm;

    private double At(double share) => _frame.Bottom - ((_frame.Bottom - _frame.Top) * share);

    private double Wide(double share) => _shape is null ? _frame.Width : _frame.Width * _shape.SurfaceLitresPerMmAt(Math.Clamp(share, 0, 1) * _shape.BrimMm) / _widest;

    // Beside a wall that stands still, a narrower part shows as the step that it is.
    private double Left(double share) => _shape is BoxesSump ? _frame.Left : _frame.Left + ((_frame.Width - Wide(share)) / 2);

    private double Right(double share) => Left(share) + Wide(share);

    // A box needs its corners only.
    private string Side(double from, double to, Func<double, double> x, char first)
    {
        var path = new StringBuilder();
        var parts = _shape is null or RectangularSump or VerticalCylinderSump ? 1 : _parts;
        for (var i = 0; i <= parts; i++)
        {
            var share = from + ((to - from) * i / parts);
            path.Append(i == 0 ? first : 'L').Append(Svg.Number(x(share))).Append(' ').Append(Svg.Number(At(share)));
        }

        return path.ToString();
    }
}

/// <summary>Where on the drawing a sump stands; the lower edge is the larger number.</summary>
internal sealed record SumpFrame(double Left, double Width, double Top, double Bottom);
