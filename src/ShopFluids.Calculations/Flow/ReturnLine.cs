using ShopFluids.Calculations.Volumes;

namespace ShopFluids.Calculations.Flow;

/// <summary>How a gravity return line carries a flow.</summary>
public enum ReturnLineState
{
    /// <summary>Part full with air above the fluid.</summary>
    Free = 0,

    /// <summary>Fuller than the wanted share: foam, chips or a wave can close it.</summary>
    NearlyFull = 1,

    /// <summary>More than it carries when full: it chokes, and fluid backs up into the machine.</summary>
    Chokes = 2,
}

/// <summary>A gravity line at one flow.</summary>
/// <param name="State">How the line carries the flow.</param>
/// <param name="FullCapacity">Flow when just full.</param>
/// <param name="LoadPercent">Flow as a share of that, %.</param>
/// <param name="DepthShare">Depth over diameter, 0 to 1; 1 where it chokes.</param>
/// <param name="MetresPerSecond">Speed of the fluid, m/s; when it chokes, that of the full line.</param>
public sealed record ReturnLineCheck(ReturnLineState State, FlowRate FullCapacity, double LoadPercent, double DepthShare, double MetresPerSecond);

/// <summary>
/// Round gravity line by Manning's formula in SI: v = R^⅔ √S / n, Q = v A, R = A / wetted perimeter. For water in steady flow; chips, foam
/// and bends are not in it, so keep a margin. Check values read: 8 in, n 0.013, slope 0.005: 0.854 ft³/s.
/// </summary>
/// <param name="InsideDiameterMm">5 to 2000 mm.</param>
/// <param name="Slope">S, fall over length, 0.0001 to 1.</param>
/// <param name="Roughness">n, 0.005 to 0.1; smooth plastic about 0.009, steel about 0.012 (from memory).</param>
/// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
public sealed record ReturnLine(double InsideDiameterMm, double Slope, double Roughness)
{
    // Above this the flow at a depth falls again, because the crown adds wall but hardly any area. Largest Q/Q(full) is 1.0757 there.
    private const double DepthOfGreatestFlow = 0.938;
    private const double LitresPerMinutePerCubicMetrePerSecond = 60_000;

    /// <summary>Inside diameter, mm.</summary>
    public double InsideDiameterMm { get; } = Require.Between(InsideDiameterMm, 5, 2000, "mm");

    /// <summary>Fall over length.</summary>
    public double Slope { get; } = Require.Between(Slope, 0.0001, 1, "(fall over length)");

    /// <summary>Manning's n.</summary>
    public double Roughness { get; } = Require.Between(Roughness, 0.005, 0.1, "(Manning's n)");

    /// <summary>Flow when just full. Part full it would carry up to 7.6 % more, which no one should count on.</summary>
    public FlowRate FullCapacity => CapacityAt(1);

    /// <summary>Speed when just full, m/s.</summary>
    public double FullMetresPerSecond => SpeedAt(1);

    /// <summary>Flow at a depth.</summary>
    /// <param name="depthShare">Depth over diameter, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="depthShare"/> is out of its range.</exception>
    public FlowRate CapacityAt(double depthShare) => FlowRate.FromLitresPerMinute(
        SpeedAt(depthShare) * FullArea * HorizontalCylinderSump.FractionAt(depthShare) * LitresPerMinutePerCubicMetrePerSecond);

    /// <summary>Speed at a depth, m/s.</summary>
    /// <param name="depthShare">Depth over diameter, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="depthShare"/> is out of its range.</exception>
    public double SpeedAt(double depthShare)
    {
        var area = FullArea * HorizontalCylinderSump.FractionAt(depthShare);
        var wetted = Diameter * 2 * Math.Asin(Math.Sqrt(depthShare));
        return wetted > 0 ? Math.Pow(area / wetted, 2.0 / 3) * Math.Sqrt(Slope) / Roughness : 0;
    }

    /// <summary>Depth and speed at a flow, and whether the line chokes.</summary>
    /// <param name="flow">The flow to be carried.</param>
    /// <param name="wantedDepthShare">Depth over diameter up to which the line counts as free, 0.1 to 0.9; 0.75 is common practice, no source.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="wantedDepthShare"/> is out of its range.</exception>
    public ReturnLineCheck Check(FlowRate flow, double wantedDepthShare)
    {
        Require.Between(wantedDepthShare, 0.1, 0.9, "(depth over diameter)");
        var full = FullCapacity;
        var load = 100 * flow.LitresPerMinute / full.LitresPerMinute;
        if (flow.LitresPerMinute > full.LitresPerMinute)
        {
            return new(ReturnLineState.Chokes, full, load, 1, FullMetresPerSecond);
        }

        var depth = flow.LitresPerMinute > 0
            ? Inverse.Rising(share => CapacityAt(share).LitresPerMinute, flow.LitresPerMinute, 0, DepthOfGreatestFlow)
            : 0;
        var state = flow.LitresPerMinute <= CapacityAt(wantedDepthShare).LitresPerMinute ? ReturnLineState.Free : ReturnLineState.NearlyFull;
        return new(state, full, load, depth, SpeedAt(depth));
    }

    private double Diameter => InsideDiameterMm / 1000;

    private double FullArea => Math.PI * Diameter * Diameter / 4;
}
