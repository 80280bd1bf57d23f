using System.Runtime.InteropServices;

namespace ShopFluids.Calculations.Additives;

/// <summary>What the label of an additive allows. All from the label or the data sheet; nothing here is a default.</summary>
/// <param name="MostMillilitresPerLitre">Most product in one dose, above 0 up to 1000 mL per litre of fluid.</param>
/// <param name="LeastHoursBetweenDoses">Least time between two doses, 0 to 100 000 h; 0 where the label says nothing.</param>
/// <param name="MostMillilitresPerLitreInPeriod">Most product over the period, from one dose up to 1000 mL per litre; null where the label says nothing.</param>
/// <param name="PeriodHours">The period, 0 to 100 000 h; above 0 where an amount for it is given.</param>
/// <exception cref="ArgumentOutOfRangeException">A number is out of its range.</exception>
public sealed record DoseLabel(
    double MostMillilitresPerLitre,
    double LeastHoursBetweenDoses = 0,
    double? MostMillilitresPerLitreInPeriod = null,
    double PeriodHours = 0)
{
    private const double MostHours = 100_000;

    /// <summary>Most product in one dose, mL/L.</summary>
    public double MostMillilitresPerLitre { get; } = Require.Positive(MostMillilitresPerLitre, 1000, "mL/L");

    /// <summary>Least time between two doses, h.</summary>
    public double LeastHoursBetweenDoses { get; } = Require.Between(LeastHoursBetweenDoses, 0, MostHours, "h");

    /// <summary>Most product over the period, mL/L.</summary>
    public double? MostMillilitresPerLitreInPeriod { get; } = MostMillilitresPerLitreInPeriod is { } most
        ? Require.Between(most, MostMillilitresPerLitre, 1000, "mL/L (one dose at least)", nameof(MostMillilitresPerLitreInPeriod))
        : null;

    /// <summary>The period, h.</summary>
    public double PeriodHours { get; } = MostMillilitresPerLitreInPeriod is null
        ? Require.Between(PeriodHours, 0, MostHours, "h")
        : Require.Positive(PeriodHours, MostHours, "h");
}

/// <summary>A dose given earlier to the same charge.</summary>
/// <param name="HoursAgo">0 to 1 000 000 h.</param>
/// <param name="Millilitres">0 to 10⁹ mL of product.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct PastDose(double HoursAgo, double Millilitres);
