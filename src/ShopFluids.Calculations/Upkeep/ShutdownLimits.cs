namespace ShopFluids.Calculations.Upkeep;

/// <summary>
/// From how many idle days what is done. The defaults are common practice without a source; the shop sets its own. Days are whole days
/// without production, 0 to 3650.
/// </summary>
/// <param name="SkimFromDays">Skim before: standing oil closes the surface. 1.</param>
/// <param name="TestAfterFromDays">Test before restarting. 2.</param>
/// <param name="CirculateFromDays">Circulate or aerate meanwhile. 3.</param>
/// <param name="DrainFromDays">Drain and clean before instead, fill fresh afterwards. 60.</param>
/// <param name="CirculateHoursPerDay">How long to circulate, above 0 up to 24 h a day. 1.</param>
/// <exception cref="ArgumentOutOfRangeException">A number is out of its range.</exception>
public sealed record ShutdownLimits(
    int SkimFromDays = 1,
    int TestAfterFromDays = 2,
    int CirculateFromDays = 3,
    int DrainFromDays = 60,
    double CirculateHoursPerDay = 1)
{
    /// <summary>Most days taken.</summary>
    public const int MostDays = 3650;

    /// <summary>Skim before, from this many days.</summary>
    public int SkimFromDays { get; } = Days(SkimFromDays, nameof(SkimFromDays));

    /// <summary>Test before restarting, from this many days.</summary>
    public int TestAfterFromDays { get; } = Days(TestAfterFromDays, nameof(TestAfterFromDays));

    /// <summary>Circulate meanwhile, from this many days.</summary>
    public int CirculateFromDays { get; } = Days(CirculateFromDays, nameof(CirculateFromDays));

    /// <summary>Drain before, from this many days.</summary>
    public int DrainFromDays { get; } = Days(DrainFromDays, nameof(DrainFromDays));

    /// <summary>How long to circulate, h a day.</summary>
    public double CirculateHoursPerDay { get; } = Require.Positive(CirculateHoursPerDay, 24, "h a day");

    internal static int Days(int value, string name) => value is >= 0 and <= MostDays
        ? value
        : throw new ArgumentOutOfRangeException(name, value, "Accepted are 0 to 3650 days.");
}

/// <summary>What is known about a sump before a shutdown.</summary>
/// <param name="VolumeLitres">Content now, above 0 up to the brim, L.</param>
/// <param name="BrimLitres">Content at the brim, above 0 up to 1 000 000 L.</param>
/// <param name="IntakeLitres">Content at which the pump draws air, 0 to the brim, L.</param>
/// <param name="Percent">Concentration, 0 to 100 % v/v.</param>
/// <param name="LowestPercent">Lower limit of the concentration, 0 to 100 % v/v.</param>
/// <param name="HighestPercent">Upper limit of the concentration, from the lower to 100 % v/v.</param>
/// <param name="IdleEvaporationLitresPerDay">Water lost a day while idle, 0 to 100 000 L/day.</param>
/// <param name="HasFlag">Whether something is wrong already (pH, bacteria, smell): it goes off first when standing.</param>
/// <exception cref="ArgumentOutOfRangeException">A number is out of its range.</exception>
public sealed record IdleSump(
    double VolumeLitres,
    double BrimLitres,
    double IntakeLitres,
    double Percent,
    double LowestPercent,
    double HighestPercent,
    double IdleEvaporationLitresPerDay,
    bool HasFlag)
{
    /// <summary>Content at the brim, L.</summary>
    public double BrimLitres { get; } = Require.Positive(BrimLitres, 1_000_000, "L");

    /// <summary>Content now, L.</summary>
    public double VolumeLitres { get; } = Require.Positive(VolumeLitres, BrimLitres, "L (the brim)");

    /// <summary>Content at which the pump draws air, L.</summary>
    public double IntakeLitres { get; } = Require.Between(IntakeLitres, 0, BrimLitres, "L (the brim)");

    /// <summary>Concentration, % v/v.</summary>
    public double Percent { get; } = Require.Between(Percent, 0, 100, "% v/v");

    /// <summary>Lower limit, % v/v.</summary>
    public double LowestPercent { get; } = Require.Between(LowestPercent, 0, 100, "% v/v");

    /// <summary>Upper limit, % v/v.</summary>
    public double HighestPercent { get; } = Require.Between(HighestPercent, LowestPercent, 100, "% v/v (the lower limit at least)");

    /// <summary>Water lost a day while idle, L/day.</summary>
    public double IdleEvaporationLitresPerDay { get; } = Require.Between(IdleEvaporationLitresPerDay, 0, 100_000, "L/day");
}
