namespace ShopFluids.Calculations.Balances;

/// <summary>A sump that is kept full: what leaves is made up at once.</summary>
/// <param name="VolumeLitres">V, 0.1 to 1 000 000 L.</param>
/// <param name="EvaporationLitresPerDay">e, water that evaporates, 0 to 1 000 000 L a day.</param>
/// <param name="CarryOffLitresPerDay">d, mix that is carried off or drained, 0 to 1 000 000 L a day.</param>
/// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
public sealed record MakeUp(double VolumeLitres, double EvaporationLitresPerDay, double CarryOffLitresPerDay)
{
    /// <summary>V, L.</summary>
    public double VolumeLitres { get; } = Require.Between(VolumeLitres, 0.1, Amounts.MostLitres, "L");

    /// <summary>e, L a day.</summary>
    public double EvaporationLitresPerDay { get; } = Require.Between(EvaporationLitresPerDay, 0, Amounts.MostLitres, "L a day");

    /// <summary>d, L a day.</summary>
    public double CarryOffLitresPerDay { get; } = Require.Between(CarryOffLitresPerDay, 0, Amounts.MostLitres, "L a day");

    /// <summary>e + d, L a day.</summary>
    public double LitresPerDay => EvaporationLitresPerDay + CarryOffLitresPerDay;

    /// <summary>Whether anything leaves but water; without carry-off, whatever the water brings stays for good.</summary>
    public bool HasSteadyState => CarryOffLitresPerDay >= LeastCarryOff * LitresPerDay && CarryOffLitresPerDay > 0;

    /// <summary>
    /// C = (e + d) / d, how many times over the make-up water is concentrated in the end; null without a steady state. Carry-off plays the
    /// part that blowdown plays in a cooling tower.
    /// </summary>
    public double? CyclesOfConcentration => HasSteadyState ? LitresPerDay / CarryOffLitresPerDay : null;

    // Below one part in a billion the steady state is centuries away and counts as none.
    private const double LeastCarryOff = 1e-9;
}
