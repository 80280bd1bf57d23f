using ShopFluids.Calculations.Mixing;

namespace ShopFluids.Calculations.Additives;

/// <summary>What is to be done about a wanted dose.</summary>
public enum DoseDecision
{
    /// <summary>The wanted dose may be given.</summary>
    Give = 0,

    /// <summary>Less than wanted: the most that the label allows now.</summary>
    GiveLess = 1,

    /// <summary>Nothing now: the last dose is too recent.</summary>
    TooSoon = 2,

    /// <summary>Nothing now: what was given over the label's period leaves no room for a measurable amount.</summary>
    PeriodUsedUp = 3,

    /// <summary>Nothing: what is wanted, or what the label allows in one dose, is less than can be measured.</summary>
    TooLittleToMeasure = 4,
}

/// <summary>A dose held against the label.</summary>
/// <param name="Decision">What is to be done.</param>
/// <param name="Millilitres">Product to add now, in whole measurable steps, never above what the label allows; 0 where nothing is to be given.</param>
/// <param name="MostMillilitresNow">Most that the label allows now, mL, before rounding.</param>
/// <param name="HoursToWait">Hours until the label's least time between doses has passed; 0 where it has.</param>
public sealed record DosePlan(DoseDecision Decision, double Millilitres, double MostMillilitresNow, double HoursToWait)
{
    private const double MostMillilitresEver = 1e9;

    /// <summary>Holds a wanted dose against the label and the doses before. A dose exactly at the edge of the period still counts in it.</summary>
    /// <param name="fluidLitres">Fluid in the sump, above 0 up to 1 000 000 L.</param>
    /// <param name="wantedMillilitres">Wanted product, 0 to 10⁹ mL (see <see cref="Dose"/>).</param>
    /// <param name="label">What the label allows.</param>
    /// <param name="before">Doses given to this charge before, in any order; may be empty.</param>
    /// <param name="measurableMillilitres">Smallest step that can be measured, 0.001 to 1 000 000 mL. The dose is rounded down to it.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static DosePlan Make(
        double fluidLitres,
        double wantedMillilitres,
        DoseLabel label,
        IReadOnlyList<PastDose> before,
        double measurableMillilitres)
    {
        ArgumentNullException.ThrowIfNull(label);
        ArgumentNullException.ThrowIfNull(before);
        Require.Positive(fluidLitres, 1_000_000, "L");
        Require.Between(wantedMillilitres, 0, MostMillilitresEver, "mL");
        Require.Between(measurableMillilitres, 0.001, 1_000_000, "mL");
        foreach (var dose in before)
        {
            Require.Between(dose.HoursAgo, 0, 1_000_000, "h", nameof(before));
            Require.Between(dose.Millilitres, 0, MostMillilitresEver, "mL", nameof(before));
        }

        var wait = before.Where(dose => dose.Millilitres > 0)
            .Select(dose => Math.Max(0, label.LeastHoursBetweenDoses - dose.HoursAgo))
            .DefaultIfEmpty(0)
            .Max();
        var perDose = label.MostMillilitresPerLitre * fluidLitres;
        var inPeriod = label.MostMillilitresPerLitreInPeriod is { } most
            ? Math.Max(0, (most * fluidLitres) - before.Where(dose => dose.HoursAgo <= label.PeriodHours).Sum(dose => dose.Millilitres))
            : perDose;
        var mostNow = wait > 0 ? 0 : Math.Min(perDose, inPeriod);
        var amount = Steps.Down(Math.Min(wantedMillilitres, mostNow), measurableMillilitres);
        var isMeasurable = Steps.Down(Math.Min(wantedMillilitres, perDose), measurableMillilitres) > 0;
        return new(Decide(wantedMillilitres, mostNow, amount, wait, isMeasurable), amount, mostNow, wait);
    }

    // Whatever was given before: a dose that could not be measured in a fresh charge either is not the period's fault.
    private static DoseDecision Decide(double wanted, double mostNow, double amount, double wait, bool isMeasurable) =>
        wait > 0 ? DoseDecision.TooSoon
        : wanted > 0 && !isMeasurable ? DoseDecision.TooLittleToMeasure
        : wanted <= mostNow ? DoseDecision.Give
        : amount > 0 ? DoseDecision.GiveLess
        : DoseDecision.PeriodUsedUp;
}
