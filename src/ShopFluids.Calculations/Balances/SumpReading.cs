using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Balances;

/// <summary>What a sump held at one time, measured.</summary>
/// <param name="Day">When, in days from any fixed start, −1 000 000 to 1 000 000; parts of a day are decimals.</param>
/// <param name="VolumeLitres">V, 0 to 1 000 000 L, with its uncertainty.</param>
/// <param name="ConcentrationPercent">c, 0 to 100 % v/v, with its uncertainty.</param>
/// <param name="RunningHours">The machine's hour meter at that time, 0 to 10 000 000 h; null where there is none.</param>
/// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
public sealed record SumpReading(double Day, Estimate VolumeLitres, Estimate ConcentrationPercent, double? RunningHours = null)
{
    /// <summary>When, in days from any fixed start.</summary>
    public double Day { get; } = Amounts.Day(Day);

    /// <summary>V with its uncertainty, L.</summary>
    public Estimate VolumeLitres { get; } = Amounts.Litres(VolumeLitres);

    /// <summary>c with its uncertainty, % v/v.</summary>
    public Estimate ConcentrationPercent { get; } = Amounts.Percent(ConcentrationPercent);

    /// <summary>The hour meter, h.</summary>
    public double? RunningHours { get; } = RunningHours is { } hours ? Require.Between(hours, 0, 10_000_000, "h", nameof(RunningHours)) : null;
}
