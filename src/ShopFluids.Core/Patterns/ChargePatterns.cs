using ShopFluids.Core.Charges;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Patterns;

namespace ShopFluids.Core.Patterns;

/// <summary>Seeks the causes for what is known of a charge in the shipped pattern table. Nothing is stored: a cause is no finding.</summary>
internal sealed record ChargePatterns(ShopSetup Setup, Sump Sump, Charge Charge)
{
    /// <param name="history">The readings of the charge up to the one from which causes are sought, and its movements.</param>
    /// <param name="seen">Symptoms that a person has seen.</param>
    public PatternCauses Seek(ChargeHistory history, StandingFacts? standing, IReadOnlyCollection<string> seen)
    {
        var water = Setup.Water(Sump);
        var at = history.Readings.Count == 0 ? Charge.FilledAtUtc : history.Readings[^1].TakenAt;
        return PatternCauses.Of(
            PatternFacts.Of(new PatternCase(
                ShopSetup.FactsOf(Sump),
                (double)Setup.Fluid(Charge.FluidId).TargetPercent,
                Setup.LimitsAt(Sump.Id, Charge.FluidId, at).Limits,
                standing?.FirstFillPh,
                Charge.FilledAtUtc,
                history,
                [.. (standing?.OpenFlags ?? []).Select(f => f.Rule).Distinct(StringComparer.Ordinal)],
                new(water?.HardnessMgPerLitre, water?.NitrateMgPerLitre),
                seen)),
            PatternTable.Shipped);
    }

    /// <summary>What the rules see of a history that a page has read already; as theirs, with what was moved since its oldest reading.</summary>
    public static ChargeHistory HistoryOf(SumpHistory history, Guid chargeId)
    {
        List<ReadingFacts> readings =
        [
            .. history.Readings.Where(r => r.SupersededBy is null).Reverse().Select(r => new ReadingFacts(
                r.Id,
                r.TakenAtUtc,
                [.. r.Measurements.Select(m => new MeasurementFacts(m.Parameter, m.Method, (decimal)m.Value, (decimal)m.Uncertainty))])),
        ];
        return readings.Count == 0 ? ChargeHistory.Empty : new(
            readings,
            [
                .. history.Movements.Where(m => m.ChargeId == chargeId && m.Kind is (MovementKind.Addition or MovementKind.Removal) && m.AtUtc > readings[0].TakenAt).Reverse()
                    .Select(m => new MovementFacts(m.AtUtc, (double)m.WaterLitres, (double)m.ConcentrateLitres, (double)m.RemovedLitres)),
            ]);
    }
}
