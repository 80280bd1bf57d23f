using System.Collections.ObjectModel;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace ShopFluids.Calculations.Flow;

/// <summary>One point of a pump's curve.</summary>
/// <param name="Flow">Flow.</param>
/// <param name="HeadMetres">Head at that flow, 0 to 20 000 m of fluid.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct PumpPoint(FlowRate Flow, double HeadMetres);

/// <summary>A pump by points of its curve, straight lines between them.</summary>
/// <param name="Points">2 to 1000; the first at flow 0; flow strictly rising, head strictly falling.</param>
/// <exception cref="ArgumentOutOfRangeException">The points are not such a curve.</exception>
public sealed record PumpCurve(IReadOnlyList<PumpPoint> Points)
{
    private const int MostPoints = 1000;

    /// <summary>The points, least flow first. A copy.</summary>
    public IReadOnlyList<PumpPoint> Points { get; } = Checked(Points);

    /// <summary>Head without flow, m.</summary>
    public double ShutOffHeadMetres => Points[0].HeadMetres;

    /// <summary>Largest flow of the curve.</summary>
    public FlowRate LargestFlow => Points[^1].Flow;

    /// <summary>Head at a flow, m.</summary>
    /// <param name="flow">0 to <see cref="LargestFlow"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="flow"/> is beyond the curve.</exception>
    public double HeadMetresAt(FlowRate flow)
    {
        var litres = Require.Between(flow.LitresPerMinute, 0, LargestFlow.LitresPerMinute, "L/min (the end of the curve)", nameof(flow));
        var upper = 1;
        while (Points[upper].Flow.LitresPerMinute < litres)
        {
            upper++;
        }

        var (low, high) = (Points[upper - 1], Points[upper]);
        var share = (litres - low.Flow.LitresPerMinute) / (high.Flow.LitresPerMinute - low.Flow.LitresPerMinute);
        return double.Lerp(low.HeadMetres, high.HeadMetres, share);
    }

    /// <summary>Whether the other curve has the same points.</summary>
    /// <param name="other">Another curve, or null.</param>
    public bool Equals(PumpCurve? other) => other is not null && Points.SequenceEqual(other.Points);

    /// <summary>A hash in step with <see cref="Equals(PumpCurve?)"/>.</summary>
    public override int GetHashCode()
    {
        var hash = new HashCode();
        foreach (var point in Points)
        {
            hash.Add(point);
        }

        return hash.ToHashCode();
    }

    private static ReadOnlyCollection<PumpPoint> Checked(
        IReadOnlyList<PumpPoint> points,
        [CallerArgumentExpression(nameof(points))] string name = "")
    {
        if (points is null || points.Count is < 2 or > MostPoints)
        {
            throw new ArgumentOutOfRangeException(name, points?.Count, "Accepted are 2 to 1000 points.");
        }

        for (var i = 0; i < points.Count; i++)
        {
            Require.Between(points[i].HeadMetres, 0, 20_000, "m", name);
            var follows = i == 0
                ? points[0].Flow.LitresPerMinute is 0
                : points[i].Flow.LitresPerMinute > points[i - 1].Flow.LitresPerMinute && points[i].HeadMetres < points[i - 1].HeadMetres;
            if (!follows)
            {
                throw new ArgumentOutOfRangeException(name, points[i], "Accepted are points from flow 0 on, flow rising and head falling strictly.");
            }
        }

        return Array.AsReadOnly(points.ToArray());
    }
}
