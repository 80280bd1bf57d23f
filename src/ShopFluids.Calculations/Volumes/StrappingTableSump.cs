using System.Collections.ObjectModel;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace ShopFluids.Calculations.Volumes;

/// <summary>One line of a strapping table, measured by filling the sump in known amounts.</summary>
/// <param name="LevelMm">Level above the zero mark, mm.</param>
/// <param name="VolumeLitres">Liquid in the sump at that level, L.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct StrappingPoint(double LevelMm, double VolumeLitres);

/// <summary>
/// A sump of any shape by measured points, straight lines between them. What stands in the liquid is in the measurement already.
/// Two tables are equal when their points are.
/// </summary>
/// <param name="Points">At least two; the first at level 0 with 0 L or more; level and volume strictly rising; finite. The last is the brim.</param>
/// <exception cref="ArgumentOutOfRangeException">The points are not such a table.</exception>
public sealed record StrappingTableSump(IReadOnlyList<StrappingPoint> Points) : SumpGeometry
{
    /// <summary>The points, lowest first. A copy: later changes to the list handed in do not reach it.</summary>
    public IReadOnlyList<StrappingPoint> Points { get; } = Checked(Points);

    /// <summary>Level of the last point, mm.</summary>
    public override double BrimMm => Points[^1].LevelMm;

    /// <summary>Volume of the last point, L.</summary>
    public override double BrimLitres => Points[^1].VolumeLitres;

    /// <summary>Volume of the first point, L.</summary>
    public override double BottomLitres => Points[0].VolumeLitres;

    /// <summary>Whether the other table has the same points.</summary>
    /// <param name="other">Another table, or null.</param>
    public bool Equals(StrappingTableSump? other) => other is not null && Points.SequenceEqual(other.Points);

    /// <summary>A hash over all points, in step with <see cref="Equals(StrappingTableSump?)"/>.</summary>
    public override int GetHashCode()
    {
        var hash = new HashCode();
        foreach (var point in Points)
        {
            hash.Add(point);
        }

        return hash.ToHashCode();
    }

    /// <inheritdoc/>
    protected override double Volume(double levelMm)
    {
        var upper = UpperEnd(point => point.LevelMm, levelMm);
        var (low, high) = (Points[upper - 1], Points[upper]);
        return double.Lerp(low.VolumeLitres, high.VolumeLitres, (levelMm - low.LevelMm) / (high.LevelMm - low.LevelMm));
    }

    /// <inheritdoc/>
    protected override double Level(double volumeLitres)
    {
        var upper = UpperEnd(point => point.VolumeLitres, volumeLitres);
        var (low, high) = (Points[upper - 1], Points[upper]);
        return double.Lerp(low.LevelMm, high.LevelMm, (volumeLitres - low.VolumeLitres) / (high.VolumeLitres - low.VolumeLitres));
    }

    /// <summary>The slope of the line at the level; on a point between two lines the steeper one, so that no uncertainty comes out too small.</summary>
    /// <param name="levelMm">h, mm.</param>
    protected override double Surface(double levelMm)
    {
        var upper = UpperEnd(point => point.LevelMm, levelMm);
        return upper + 1 < Points.Count && Points[upper].LevelMm <= levelMm
            ? Math.Max(Slope(upper), Slope(upper + 1))
            : Slope(upper);
    }

    private static ReadOnlyCollection<StrappingPoint> Checked(
        IReadOnlyList<StrappingPoint> points,
        [CallerArgumentExpression(nameof(points))] string name = "")
    {
        if (points is null || points.Count < 2)
        {
            throw new ArgumentOutOfRangeException(name, points?.Count, "Accepted are at least two points.");
        }

        for (var i = 0; i < points.Count; i++)
        {
            Require.Finite(points[i].LevelMm, name);
            Require.Finite(points[i].VolumeLitres, name);
            if (i == 0 && points[0] is not { LevelMm: 0, VolumeLitres: >= 0 })
            {
                throw new ArgumentOutOfRangeException(name, points[0], "Accepted is a first point at level 0 mm with 0 L or more.");
            }

            if (i > 0 && (points[i].LevelMm <= points[i - 1].LevelMm || points[i].VolumeLitres <= points[i - 1].VolumeLitres))
            {
                throw new ArgumentOutOfRangeException(name, points[i], "Accepted are points that rise strictly, level and volume.");
            }
        }

        return Array.AsReadOnly(points.ToArray());
    }

    private double Slope(int upper) =>
        (Points[upper].VolumeLitres - Points[upper - 1].VolumeLitres) / (Points[upper].LevelMm - Points[upper - 1].LevelMm);

    // The end of the line that holds the value: the first point, after the very first, that is not below it.
    private int UpperEnd(Func<StrappingPoint, double> coordinate, double value)
    {
        var upper = 1;
        while (upper < Points.Count - 1 && coordinate(Points[upper]) < value)
        {
            upper++;
        }

        return upper;
    }
}
