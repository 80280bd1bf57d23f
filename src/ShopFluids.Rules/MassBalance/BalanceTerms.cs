using ShopFluids.Calculations.Balances;
using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.MassBalance;

/// <summary>Readings and movements as a mass balance takes them, with how far each may be off.</summary>
public static class BalanceTerms
{
    // Where none is stated: a rule held by hand, and the least that a hand refractometer tells. Common practice, no source.
    private const double LeastLevelUncertaintyMm = 4;
    private const double LeastConcentrationUncertainty = 0.2;

    /// <summary>A reading; null where it does not tell both level and concentration, or a level outside the sump.</summary>
    /// <param name="facts">The reading.</param>
    /// <param name="sump">The sump.</param>
    /// <param name="start">The moment from which days are counted, UTC.</param>
    /// <param name="hoursPerDay">Running hours on a day; null where they are not known.</param>
    public static SumpReading? Of(ReadingFacts facts, SumpFacts sump, DateTime start, double? hoursPerDay = null)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(sump);
        var geometry = sump.Geometry;
        if (facts.Decisive(ParameterCodes.Level) is not { } level
            || facts.Decisive(ParameterCodes.Concentration) is not { Value: >= 0 and <= 100 } percent
            || level.Value < 0
            || (double)level.Value > geometry.BrimMm)
        {
            return null;
        }

        var levelUncertainty = Math.Max((double)level.Uncertainty, LeastLevelUncertaintyMm);
        var days = (facts.TakenAt - start).TotalDays;
        return new(
            days,
            new(geometry.VolumeLitresAt((double)level.Value), levelUncertainty * geometry.SurfaceLitresPerMmAt((double)level.Value)),
            new((double)percent.Value, Math.Max((double)percent.Uncertainty, LeastConcentrationUncertainty)),
            days * hoursPerDay);
    }

    /// <summary>What was poured in and taken out.</summary>
    /// <param name="movement">What was moved at one moment.</param>
    /// <param name="start">The moment from which days are counted, UTC.</param>
    /// <param name="inSump">The concentration of what is taken out, % v/v.</param>
    /// <param name="pouredWithinPercent">How far an amount may be off, %.</param>
    public static IEnumerable<Movement> Of(MovementFacts movement, DateTime start, Estimate inSump, double pouredWithinPercent)
    {
        ArgumentNullException.ThrowIfNull(movement);
        var (day, share) = ((movement.At - start).TotalDays, pouredWithinPercent / 100);
        if (movement.WaterLitres + movement.ConcentrateLitres is > 0 and var added)
        {
            var strength = 100 * movement.ConcentrateLitres / added;
            yield return Movement.Addition(day, new(added, added * share), new(strength, strength * share));
        }

        if (movement.RemovedLitres > 0)
        {
            yield return Movement.Removal(day, new(movement.RemovedLitres, movement.RemovedLitres * share), inSump);
        }
    }
}
