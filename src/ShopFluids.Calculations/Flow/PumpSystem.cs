using ShopFluids.Calculations.Volumes;

namespace ShopFluids.Calculations.Flow;

/// <summary>Where pump and system meet.</summary>
public enum SystemPointState
{
    /// <summary>Pump and system meet on the curve.</summary>
    Found = 0,

    /// <summary>The lift is at least the head without flow: the pump runs but delivers nothing.</summary>
    NoFlow = 1,

    /// <summary>The system takes more than the curve shows: beyond its end nothing is known, and the motor may be overloaded.</summary>
    BeyondCurve = 2,
}

/// <summary>The point at which a pump works.</summary>
/// <param name="State">Where pump and system meet.</param>
/// <param name="Flow">Flow; 0 without flow, the end of the curve beyond it.</param>
/// <param name="HeadMetres">Head of the pump at that flow, m.</param>
public sealed record SystemPoint(SystemPointState State, FlowRate Flow, double HeadMetres);

/// <summary>
/// What the system asks of the pump: H(Q) = H₀ + (H₁ − H₀) (Q / Q₁)², turbulent losses through one known point (textbook).
/// </summary>
/// <param name="StaticHeadMetres">H₀, lift without flow, 0 to 20 000 m.</param>
/// <param name="KnownFlow">Q₁ of the known point, 0.001 L/min at least.</param>
/// <param name="KnownHeadMetres">H₁ of the known point, from H₀ to 20 000 m.</param>
/// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
public sealed record PumpSystem(double StaticHeadMetres, FlowRate KnownFlow, double KnownHeadMetres)
{
    private const double MostMetres = 20_000;

    /// <summary>Lift without flow, m.</summary>
    public double StaticHeadMetres { get; } = Require.Between(StaticHeadMetres, 0, MostMetres, "m");

    /// <summary>Flow of the known point.</summary>
    public FlowRate KnownFlow { get; } = Require.Between(KnownFlow.LitresPerMinute, 0.001, FlowRate.MaximumLitresPerMinute, "L/min", nameof(KnownFlow)) > 0
        ? KnownFlow
        : default;

    /// <summary>Head of the known point, m.</summary>
    public double KnownHeadMetres { get; } = Require.Between(KnownHeadMetres, StaticHeadMetres, MostMetres, "m (the lift at least)");

    /// <summary>Head that the system asks for at a flow, m.</summary>
    /// <param name="flow">The flow.</param>
    public double HeadMetresAt(FlowRate flow)
    {
        var share = flow.LitresPerMinute / KnownFlow.LitresPerMinute;
        return StaticHeadMetres + ((KnownHeadMetres - StaticHeadMetres) * share * share);
    }

    /// <summary>The point where the pump gives the head that the system asks for.</summary>
    /// <param name="pump">The pump.</param>
    public SystemPoint PointWith(PumpCurve pump)
    {
        ArgumentNullException.ThrowIfNull(pump);
        if (StaticHeadMetres >= pump.ShutOffHeadMetres)
        {
            return new(SystemPointState.NoFlow, default, pump.ShutOffHeadMetres);
        }

        double Missing(double litresPerMinute)
        {
            var flow = FlowRate.FromLitresPerMinute(litresPerMinute);
            return HeadMetresAt(flow) - pump.HeadMetresAt(flow);
        }

        var end = pump.LargestFlow;
        if (Missing(end.LitresPerMinute) < 0)
        {
            return new(SystemPointState.BeyondCurve, end, pump.HeadMetresAt(end));
        }

        var found = FlowRate.FromLitresPerMinute(Inverse.Rising(Missing, 0, 0, end.LitresPerMinute));
        return new(SystemPointState.Found, found, pump.HeadMetresAt(found));
    }
}
