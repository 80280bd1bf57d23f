using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Balances;

/// <summary>Where the fluid of a charge went between two readings.</summary>
/// <param name="Days">Time between the first and the last reading, days; above 0.</param>
/// <param name="RunningHours">Running hours between them, h; null where they are not known or the machine did not run.</param>
/// <param name="VolumeLostLitres">L, all that left without a record, L.</param>
/// <param name="ConcentrateLostLitres">L_c, the concentrate in it, L.</param>
/// <param name="MeanConcentrationPercent">c̄, the concentration in the sump averaged over time, % v/v.</param>
/// <param name="CarryOffLitres">D = 100 L_c / c̄, mix carried off by parts, chips and mist, L.</param>
/// <param name="EvaporationLitres">E = L − D, water evaporated, L.</param>
/// <param name="Finding">Whether the balance closes.</param>
public sealed record ChargeBalance(
    double Days,
    double? RunningHours,
    Estimate VolumeLostLitres,
    Estimate ConcentrateLostLitres,
    double MeanConcentrationPercent,
    Estimate CarryOffLitres,
    Estimate EvaporationLitres,
    BalanceFinding Finding)
{
    /// <summary>
    /// The losses per day, smoothed by taking the totals: of all readings only the first and the last carry weight in the volume, the
    /// others only in c̄, so that an error of one reading does not come back as a change of rate.
    /// </summary>
    public LossRates PerDay => Per(Days);

    /// <summary>The losses per running hour, smoothed in the same way; null where the running hours are not known.</summary>
    public LossRates? PerRunningHour => RunningHours is { } hours ? Per(hours) : null;

    private LossRates Per(double time) => new(Divide(VolumeLostLitres, time), Divide(EvaporationLitres, time), Divide(CarryOffLitres, time));

    private static Estimate Divide(Estimate amount, double time) => new(amount.Value / time, amount.ExpandedUncertainty / time);
}

/// <summary>How fast a sump loses fluid, in litres per unit of time (day or running hour). A gain is a negative loss.</summary>
/// <param name="VolumeLost">Everything that leaves.</param>
/// <param name="Evaporation">The water that evaporates.</param>
/// <param name="CarryOff">The mix that is carried off.</param>
/// <exception cref="ArgumentOutOfRangeException">A rate or its uncertainty is beyond 10²¹ L per unit of time.</exception>
public sealed record LossRates(Estimate VolumeLost, Estimate Evaporation, Estimate CarryOff)
{
    private const double MostPerTime = 1e21;

    /// <summary>Everything that leaves, L per unit of time.</summary>
    public Estimate VolumeLost { get; } = Amounts.Within(VolumeLost, -MostPerTime, MostPerTime, "L per unit of time", nameof(VolumeLost));

    /// <summary>The water that evaporates, L per unit of time.</summary>
    public Estimate Evaporation { get; } = Amounts.Within(Evaporation, -MostPerTime, MostPerTime, "L per unit of time", nameof(Evaporation));

    /// <summary>The mix that is carried off, L per unit of time.</summary>
    public Estimate CarryOff { get; } = Amounts.Within(CarryOff, -MostPerTime, MostPerTime, "L per unit of time", nameof(CarryOff));

    /// <summary>Rates per running hour as rates per day.</summary>
    /// <param name="hoursPerDay">Running hours on a day, 0 to 24 h.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="hoursPerDay"/> is out of range.</exception>
    public LossRates PerDayAt(double hoursPerDay)
    {
        Require.Between(hoursPerDay, 0, 24, "h");
        return new(Times(VolumeLost, hoursPerDay), Times(Evaporation, hoursPerDay), Times(CarryOff, hoursPerDay));
    }

    private static Estimate Times(Estimate rate, double hours) => new(rate.Value * hours, rate.ExpandedUncertainty * hours);
}
