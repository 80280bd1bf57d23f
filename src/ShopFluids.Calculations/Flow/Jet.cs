namespace ShopFluids.Calculations.Flow;

/// <summary>
/// Flow through a nozzle or orifice: v = √(2 Δp / ρ), Q = C A v. Bernoulli with a discharge coefficient C: about 0.62 for a sharp edge, 0.8 for
/// a short tube, 0.95 for a rounded nozzle (from memory). The speed is that of the free jet without loss.
/// </summary>
public static class Jet
{
    private const double PascalsPerBar = 100_000;
    private const double LitresPerMinutePerCubicMetrePerSecond = 60_000;

    /// <summary>v, m/s.</summary>
    /// <param name="pressureBar">Δp before the nozzle over the surroundings, 0 to 1000 bar.</param>
    /// <param name="densityKgPerCubicMetre">ρ, 500 to 2000 kg/m³.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double MetresPerSecond(double pressureBar, double densityKgPerCubicMetre) =>
        Math.Sqrt(2 * Require.Between(pressureBar, 0, 1000, "bar") * PascalsPerBar / Density(densityKgPerCubicMetre, nameof(densityKgPerCubicMetre)));

    /// <summary>Q of one nozzle.</summary>
    /// <param name="nozzleMm">Inside diameter, 0.05 to 500 mm.</param>
    /// <param name="pressureBar">Δp, 0 to 1000 bar.</param>
    /// <param name="densityKgPerCubicMetre">ρ, 500 to 2000 kg/m³.</param>
    /// <param name="dischargeCoefficient">C, 0.3 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static FlowRate Through(double nozzleMm, double pressureBar, double densityKgPerCubicMetre, double dischargeCoefficient) =>
        FlowRate.FromLitresPerMinute(
            MetresPerSecond(pressureBar, densityKgPerCubicMetre) * Area(nozzleMm, nameof(nozzleMm))
            * Coefficient(dischargeCoefficient, nameof(dischargeCoefficient)) * LitresPerMinutePerCubicMetrePerSecond);

    /// <summary>Δp = ρ (Q / (C A))² / 2: pressure that a flow needs, bar; the inverse of <see cref="Through"/>.</summary>
    /// <param name="nozzleMm">Inside diameter, 0.05 to 500 mm.</param>
    /// <param name="flow">Q of one nozzle; such that the pressure is 1000 bar at most.</param>
    /// <param name="densityKgPerCubicMetre">ρ, 500 to 2000 kg/m³.</param>
    /// <param name="dischargeCoefficient">C, 0.3 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range, or the flow would need more than 1000 bar.</exception>
    public static double PressureBar(double nozzleMm, FlowRate flow, double densityKgPerCubicMetre, double dischargeCoefficient)
    {
        var most = Through(nozzleMm, 1000, densityKgPerCubicMetre, dischargeCoefficient).LitresPerMinute;
        var share = Require.Between(flow.LitresPerMinute, 0, most, "L/min (what 1000 bar drive)", nameof(flow)) / most;
        return 1000 * share * share;
    }

    /// <summary>d = √(4 Q / (π C v)): nozzle for a flow at a pressure, mm.</summary>
    /// <param name="flow">Q of one nozzle.</param>
    /// <param name="pressureBar">Δp, 0.001 to 1000 bar.</param>
    /// <param name="densityKgPerCubicMetre">ρ, 500 to 2000 kg/m³.</param>
    /// <param name="dischargeCoefficient">C, 0.3 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double NozzleMm(FlowRate flow, double pressureBar, double densityKgPerCubicMetre, double dischargeCoefficient)
    {
        var speed = MetresPerSecond(Require.Between(pressureBar, 0.001, 1000, "bar"), densityKgPerCubicMetre);
        var area = flow.LitresPerMinute / LitresPerMinutePerCubicMetrePerSecond / (Coefficient(dischargeCoefficient, nameof(dischargeCoefficient)) * speed);
        return 1000 * Math.Sqrt(4 * area / Math.PI);
    }

    private static double Density(double value, string name) => Require.Between(value, 500, 2000, "kg/m³", name);

    private static double Coefficient(double value, string name) => Require.Between(value, 0.3, 1, "(discharge coefficient)", name);

    private static double Area(double nozzleMm, string name)
    {
        var metres = Require.Between(nozzleMm, 0.05, 500, "mm", name) / 1000;
        return Math.PI * metres * metres / 4;
    }
}
