using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Mixing;

/// <summary>What a sump holds, what it shall hold, and the limits within which fluid may be added or removed.</summary>
/// <param name="VolumeLitres">V₀, what is in the sump, 0 L to the brim, with its uncertainty.</param>
/// <param name="ConcentrationPercent">c₀, its concentration, 0 to 100 % v/v, with its uncertainty.</param>
/// <param name="TargetVolumeLitres">V₁, the wanted volume, L: at least one measurable step, not below the pump intake, not above the brim.</param>
/// <param name="TargetPercent">c_t, the wanted concentration, above 0 up to 100 % v/v.</param>
/// <param name="PremixMinimumPercent">m_min, the weakest premix that may be added, 0 to c_t, % v/v.</param>
/// <param name="PremixMaximumPercent">m_max, the strongest premix that may be added, c_t to 100, % v/v.</param>
/// <param name="BrimLitres">Volume at the brim, above 0 up to 1 000 000 L.</param>
/// <param name="PumpIntakeLitres">Volume below which the pump draws air, 0 L or more.</param>
/// <param name="MeasurableLitres">The smallest step in which the shop can measure an amount, above 0, L.</param>
/// <param name="AcceptedMinimumPercent">
/// The lowest concentration for which no fluid is thrown away to come nearer to the target, 0 to c_t, % v/v; null: c_t − U(c₀), a
/// difference that the measurement cannot see.
/// </param>
/// <param name="AcceptedMaximumPercent">The highest such concentration, c_t to 100, % v/v; null: c_t + U(c₀).</param>
/// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
public sealed record TopUpRequest(
    Estimate VolumeLitres,
    Estimate ConcentrationPercent,
    double TargetVolumeLitres,
    double TargetPercent,
    double PremixMinimumPercent,
    double PremixMaximumPercent,
    double BrimLitres,
    double PumpIntakeLitres,
    double MeasurableLitres = 0.1,
    double? AcceptedMinimumPercent = null,
    double? AcceptedMaximumPercent = null)
{
    /// <summary>Volume at the brim, L.</summary>
    public double BrimLitres { get; } = Require.Positive(BrimLitres, 1_000_000, "L");

    /// <summary>V₀ with its uncertainty, L.</summary>
    public Estimate VolumeLitres { get; } = Within(VolumeLitres, BrimLitres, "L (the brim)", nameof(VolumeLitres));

    /// <summary>c₀ with its uncertainty, % v/v.</summary>
    public Estimate ConcentrationPercent { get; } = Within(ConcentrationPercent, 100, "% v/v", nameof(ConcentrationPercent));

    /// <summary>Volume below which the pump draws air, L.</summary>
    public double PumpIntakeLitres { get; } = Require.Between(PumpIntakeLitres, 0, BrimLitres, "L (the brim)");

    /// <summary>The smallest measurable step, L.</summary>
    public double MeasurableLitres { get; } = Require.Positive(MeasurableLitres, BrimLitres, "L (the brim)");

    /// <summary>V₁, L.</summary>
    public double TargetVolumeLitres { get; } =
        Require.Between(TargetVolumeLitres, Math.Max(PumpIntakeLitres, MeasurableLitres), BrimLitres, "L (pump intake to brim)");

    /// <summary>c_t, % v/v.</summary>
    public double TargetPercent { get; } = Require.Positive(TargetPercent, 100, "% v/v");

    /// <summary>m_min, % v/v.</summary>
    public double PremixMinimumPercent { get; } = Require.Between(PremixMinimumPercent, 0, TargetPercent, "% v/v (the target)");

    /// <summary>m_max, % v/v.</summary>
    public double PremixMaximumPercent { get; } = Require.Between(PremixMaximumPercent, TargetPercent, 100, "% v/v (from the target)");

    /// <summary>The lowest concentration for which no fluid is thrown away, % v/v; null stands for c_t − U(c₀).</summary>
    public double? AcceptedMinimumPercent { get; } = AcceptedMinimumPercent is { } low
        ? Require.Between(low, 0, TargetPercent, "% v/v (the target)", nameof(AcceptedMinimumPercent))
        : null;

    /// <summary>The highest concentration for which no fluid is thrown away, % v/v; null stands for c_t + U(c₀).</summary>
    public double? AcceptedMaximumPercent { get; } = AcceptedMaximumPercent is { } high
        ? Require.Between(high, TargetPercent, 100, "% v/v (from the target)", nameof(AcceptedMaximumPercent))
        : null;

    private static Estimate Within(Estimate estimate, double maximum, string unit, string name)
    {
        Require.Between(estimate.Value, 0, maximum, unit, name);
        return estimate;
    }
}
