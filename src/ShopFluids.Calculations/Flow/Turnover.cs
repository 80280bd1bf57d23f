namespace ShopFluids.Calculations.Flow;

/// <summary>How often the fluid goes round. Definitions.</summary>
public static class Turnover
{
    private const double LeastLitres = 0.001;
    private const double MostLitres = 1_000_000;
    private const double LeastLitresPerMinute = 0.001;

    /// <summary>60 Q / V: how often an hour the whole volume passes the pump.</summary>
    /// <param name="flow">Q.</param>
    /// <param name="litres">V, 0.001 to 1 000 000 L.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double PerHour(FlowRate flow, double litres) => flow.LitresPerHour / Require.Between(litres, LeastLitres, MostLitres, "L");

    /// <summary>V / Q: mean time that the fluid rests in the sump between two rounds, minutes. Dead corners rest longer, a short cut less.</summary>
    /// <param name="litres">V, 0 to 1 000 000 L.</param>
    /// <param name="flow">Q, 0.001 L/min at least.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double ResidenceMinutes(double litres, FlowRate flow) =>
        Require.Between(litres, 0, MostLitres, "L")
        / Require.Between(flow.LitresPerMinute, LeastLitresPerMinute, FlowRate.MaximumLitresPerMinute, "L/min", nameof(flow));
}
