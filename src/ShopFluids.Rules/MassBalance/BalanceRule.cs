using ShopFluids.Calculations.Balances;
using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.MassBalance;

/// <summary>
/// Flags a charge whose mass balance since the last full reading does not close: it holds more water, or more concentrate, than the records
/// explain, beyond the uncertainty of readings and additions and beyond a share of the sump. Conservation of mass; the share and the uncertainty of
/// what was poured are common practice, no source. Side high: water; low: concentrate; none: both.
/// </summary>
public sealed class BalanceRule : IRule
{
    /// <summary>The rule's code.</summary>
    public const string RuleCode = "balance";

    /// <summary>Number: gains up to this share of the sump at the full mark are left alone, %.</summary>
    public const string LeastPercent = "leastPercent";

    /// <summary>Number: how far what was poured may be off, %.</summary>
    public const string PouredWithinPercent = "pouredWithinPercent";

    /// <summary>Number: readings farther apart than so many days are not compared.</summary>
    public const string LongestGapDays = "longestGapDays";

    // Closer together the level tells more of the reader than of the sump. Common practice, no source.
    private static readonly TimeSpan ShortestGap = TimeSpan.FromHours(4);
    private static readonly TaskKind[] LookForTheCause = [TaskKind.Inspect];

    /// <inheritdoc/>
    public string Code => RuleCode;

    /// <inheritdoc/>
    public int Version => 3;

    /// <inheritdoc/>
    public IReadOnlyList<RuleNumber> Numbers { get; } = [new(LeastPercent, 3, 0, 50), new(PouredWithinPercent, 10, 0, 50), new(LongestGapDays, 21, 1, 90)];

    /// <inheritdoc/>
    public IEnumerable<RuleOpinion> Check(RuleCase reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        if (reading.Measured(ParameterCodes.Level) is null
            || reading.Measured(ParameterCodes.Concentration) is null
            || Before(reading) is not { } before
            || BalanceTerms.Of(reading.Input.Reading, reading.Input.Sump, before.TakenAt) is not { } now
            || BalanceTerms.Of(before, reading.Input.Sump, before.TakenAt) is not { } then)
        {
            yield break;
        }

        if (Balance.TryOver([then, now], Between(reading, before.TakenAt, then.ConcentrationPercent)) is not { } balance)
        {
            yield break;
        }

        var least = reading.Input.Sump.Geometry.VolumeLitresAt(reading.Input.Sump.FullMarkMm) * (double)reading.Number(LeastPercent) / 100;
        yield return Judge(balance, least);
    }

    /// <inheritdoc/>
    public IReadOnlyList<TaskKind> WorkFor(FlagKey flag, bool isConfirmed) => LookForTheCause;

    private RuleOpinion Judge(ChargeBalance balance, double leastLitres)
    {
        var (water, mix) = (IsGain(balance.EvaporationLitres, leastLitres), IsGain(balance.CarryOffLitres, leastLitres));
        if (!water && !mix)
        {
            return RuleOpinion.None("");
        }

        // Water and mix together are what the volumes alone tell.
        var gained = water && mix ? balance.VolumeLostLitres : water ? balance.EvaporationLitres : balance.CarryOffLitres;
        var numbers = new SortedDictionary<string, decimal>(StringComparer.Ordinal)
        {
            [NumberNames.Days] = decimal.Round((decimal)balance.Days, 1),
            [NumberNames.GainedLitres] = decimal.Round((decimal)-gained.Value, 1),
            [NumberNames.GainUncertainty] = decimal.Round((decimal)gained.ExpandedUncertainty, 1),
            [NumberNames.GainedConcentrate] = decimal.Round((decimal)Math.Max(0, -balance.ConcentrateLostLitres.Value), 1),
        };

        // Water in the place of mix: the level hardly rose, and whoever reads only of the water would look for what cannot be seen.
        if (IsBeyond(balance.CarryOffLitres.Value, balance.CarryOffLitres, leastLitres))
        {
            numbers.Add(NumberNames.LostMix, decimal.Round((decimal)balance.CarryOffLitres.Value, 1));
        }

        return RuleOpinion.Of(new(Code, Version, "", Verdict.Warning, (water, mix) switch { (true, true) => Direction.None, (true, false) => Direction.High, _ => Direction.Low }, numbers));
    }

    private static bool IsGain(Estimate loss, double leastLitres) => IsBeyond(-loss.Value, loss, leastLitres);

    private static bool IsBeyond(double litres, Estimate estimate, double leastLitres) => litres > estimate.ExpandedUncertainty + leastLitres;

    private static List<Movement> Between(RuleCase reading, DateTime start, Estimate inSump)
    {
        var (between, within) = (new List<Movement>(), (double)reading.Number(PouredWithinPercent));
        foreach (var moved in reading.Input.History.Movements)
        {
            if (moved.At >= start && moved.At < reading.TakenAt)
            {
                between.AddRange(BalanceTerms.Of(moved, start, inSump, within));
            }
        }

        return between;
    }

    // The last reading that tells both; on the same visit nothing evaporates.
    private static ReadingFacts? Before(RuleCase reading)
    {
        var readings = reading.Input.History.Readings;
        for (var i = readings.Count - 1; i >= 0; i--)
        {
            var gap = reading.TakenAt - readings[i].TakenAt;
            if (gap.TotalDays > (double)reading.Number(LongestGapDays))
            {
                return null;
            }

            if (gap >= ShortestGap && readings[i].Decisive(ParameterCodes.Level) is not null && readings[i].Decisive(ParameterCodes.Concentration) is not null)
            {
                return readings[i];
            }
        }

        return null;
    }
}
