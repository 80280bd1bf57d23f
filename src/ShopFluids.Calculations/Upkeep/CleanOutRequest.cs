namespace ShopFluids.Calculations.Upkeep;

/// <summary>A sump that is to be cleaned out and filled again.</summary>
/// <param name="ContentLitres">Old fluid in the sump and lines, above 0 up to the system's volume, L.</param>
/// <param name="SystemLitres">What sump and lines hold when full, above 0 up to 1 000 000 L.</param>
/// <param name="HeelLitres">What cannot be drained (low spots, lines), 0 up to below the content, L.</param>
/// <param name="CleanerPercent">Dose of system cleaner in the old fluid by its data sheet, 0 to 20 % v/v of the fluid.</param>
/// <param name="CirculationHours">Time that the cleaner has to go round by its data sheet, 0 to 1000 h.</param>
/// <param name="Rinses">Number of rinses, 0 to 20.</param>
/// <param name="RinseLitres">Water or weak mix for each rinse, L; with the heel at most the system's volume; above 0 where there is a rinse.</param>
/// <param name="RinseHours">Time that each rinse goes round, 0 to 1000 h.</param>
/// <param name="RefillLitres">Fresh mix for the refill, L; with the heel at most the system's volume.</param>
/// <param name="RefillPercent">Concentration of the fresh mix, 0 to 100 % v/v.</param>
/// <param name="DrainLitresPerMinute">How fast it is pumped out, 0.1 to 100 000 L/min.</param>
/// <param name="FillLitresPerMinute">How fast rinses and mix are filled in, 0.1 to 100 000 L/min.</param>
/// <param name="HandHours">Shovelling, wiping, screens, guards: hours in which the machine stands, 0 to 1000 h.</param>
/// <param name="MeasurableLitres">Smallest step that can be measured, above 0, no more than the refill, L.</param>
/// <exception cref="ArgumentOutOfRangeException">A number is out of its range.</exception>
public sealed record CleanOutRequest(
    double ContentLitres,
    double SystemLitres,
    double HeelLitres,
    double CleanerPercent,
    double CirculationHours,
    int Rinses,
    double RinseLitres,
    double RinseHours,
    double RefillLitres,
    double RefillPercent,
    double DrainLitresPerMinute,
    double FillLitresPerMinute,
    double HandHours,
    double MeasurableLitres)
{
    private const double MostHours = 1000;

    /// <summary>What sump and lines hold when full, L.</summary>
    public double SystemLitres { get; } = Require.Positive(SystemLitres, 1_000_000, "L");

    /// <summary>Old fluid, L.</summary>
    public double ContentLitres { get; } = Require.Positive(ContentLitres, SystemLitres, "L (the system)");

    /// <summary>What cannot be drained, L.</summary>
    public double HeelLitres { get; } = Require.Between(HeelLitres, 0, Math.BitDecrement(ContentLitres), "L (below the content)");

    /// <summary>Dose of system cleaner, % v/v of the old fluid.</summary>
    public double CleanerPercent { get; } = Require.Between(CleanerPercent, 0, 20, "% v/v");

    /// <summary>Circulation of the cleaner, h.</summary>
    public double CirculationHours { get; } = Require.Between(CirculationHours, 0, MostHours, "h");

    /// <summary>Number of rinses.</summary>
    public int Rinses { get; } = Rinses is >= 0 and <= 20
        ? Rinses
        : throw new ArgumentOutOfRangeException(nameof(Rinses), Rinses, "Accepted are 0 to 20 rinses.");

    /// <summary>Each rinse, L.</summary>
    public double RinseLitres { get; } = Rinses is 0
        ? Require.Between(RinseLitres, 0, SystemLitres - HeelLitres, "L (the system less the heel)")
        : Require.Positive(RinseLitres, SystemLitres - HeelLitres, "L (the system less the heel)");

    /// <summary>Circulation of each rinse, h.</summary>
    public double RinseHours { get; } = Require.Between(RinseHours, 0, MostHours, "h");

    /// <summary>Fresh mix, L.</summary>
    public double RefillLitres { get; } = Require.Positive(RefillLitres, SystemLitres - HeelLitres, "L (the system less the heel)");

    /// <summary>Concentration of the fresh mix, % v/v.</summary>
    public double RefillPercent { get; } = Require.Between(RefillPercent, 0, 100, "% v/v");

    /// <summary>How fast it is pumped out, L/min.</summary>
    public double DrainLitresPerMinute { get; } = Require.Between(DrainLitresPerMinute, 0.1, 100_000, "L/min");

    /// <summary>How fast it is filled, L/min.</summary>
    public double FillLitresPerMinute { get; } = Require.Between(FillLitresPerMinute, 0.1, 100_000, "L/min");

    /// <summary>Hours of work by hand.</summary>
    public double HandHours { get; } = Require.Between(HandHours, 0, MostHours, "h");

    /// <summary>Smallest step that can be measured, L.</summary>
    public double MeasurableLitres { get; } = Require.Positive(MeasurableLitres, RefillLitres, "L (the refill)");
}
