using ShopFluids.Calculations.Balances;
using ShopFluids.Calculations.Upkeep;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Shutdowns;

/// <summary>What a shutdown asks of a sump, from what is known of it.</summary>
public static class ShutdownAdvice
{
    private const double MostEvaporationLitresPerDay = 100_000;

    /// <summary>
    /// The plan. A sump that was never measured is tested before: nothing is known of it. What evaporates while it stands is taken as what
    /// its charge has lost a day while working, which is more, so that the pump is rather covered.
    /// </summary>
    /// <param name="idleDays">Days without production.</param>
    /// <param name="sump">The sump.</param>
    /// <param name="fluid">The fluid in it.</param>
    /// <param name="standing">What is known of it.</param>
    /// <param name="volumeLitres">Its content now, L; null where it is not known.</param>
    /// <param name="history">The charge so far.</param>
    /// <param name="limits">Limits in force.</param>
    /// <param name="thresholds">From how many days on what is done.</param>
    public static ShutdownPlan For(
        int idleDays,
        SumpFacts sump,
        FluidFacts fluid,
        StandingFacts standing,
        double? volumeLitres,
        ChargeHistory history,
        IReadOnlyList<ParameterLimits> limits,
        ShutdownLimits thresholds)
    {
        ArgumentNullException.ThrowIfNull(sump);
        ArgumentNullException.ThrowIfNull(fluid);
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(history);
        ArgumentNullException.ThrowIfNull(limits);
        ArgumentNullException.ThrowIfNull(thresholds);
        var percent = standing.Latest.TryGetValue(ParameterCodes.Concentration, out var latest) ? (double)latest.Value : (double?)null;
        var row = limits.FirstOrDefault(l => l.Parameter == ParameterCodes.Concentration && l.Basis == LimitBasis.Value);
        var (lowest, highest) = ((double)(row?.WarningLow ?? row?.ActionLow ?? 0), (double)(row?.WarningHigh ?? row?.ActionHigh ?? 100));
        var brim = sump.Geometry.BrimLitres;
        var volume = volumeLitres ?? sump.Geometry.VolumeLitresAt(sump.FullMarkMm);
        var isUnknown = percent is null || volumeLitres is null or <= 0;
        return ShutdownPlan.For(
            idleDays,
            new IdleSump(
                volume > 0 ? Math.Min(volume, brim) : brim,
                brim,
                sump.Geometry.VolumeLitresAt(sump.PumpIntakeMm),
                percent ?? fluid.TargetPercent,
                lowest,
                highest,
                EvaporationPerDay(sump, history),
                HasFlag: isUnknown || standing.OpenFlags.Count > 0),
            thresholds);
    }

    /// <summary>Water lost a day by the charge's own balance, L/day; 0 where the readings do not tell, or tell of a gain.</summary>
    private static double EvaporationPerDay(SumpFacts sump, ChargeHistory history)
    {
        var readings = history.Readings
            .Select(r => (At: r.TakenAt, Level: (double?)r.Decisive(ParameterCodes.Level)?.Value, Percent: (double?)r.Decisive(ParameterCodes.Concentration)?.Value))
            .Where(r => r.Level is >= 0 && r.Level <= sump.Geometry.BrimMm && r.Percent is >= 0 and <= 100)
            .ToList();

        // Of two at one moment the later one counts.
        for (var i = readings.Count - 2; i >= 0; i--)
        {
            if ((readings[i + 1].At - readings[i].At).TotalDays <= Balance.ShortestDays)
            {
                readings.RemoveAt(i);
            }
        }

        if (readings.Count < 2 || readings[^1].At - readings[0].At < TimeSpan.FromDays(1))
        {
            return 0;
        }

        var start = readings[0].At;
        double Day(DateTime at) => (at - start).TotalDays;
        var balance = Balance.TryOver(
            [.. readings.Select(r => new SumpReading(Day(r.At), new(sump.Geometry.VolumeLitresAt(r.Level ?? 0), 0), new(r.Percent ?? 0, 0)))],
            [.. history.Movements.Where(m => m.At >= start && m.At < readings[^1].At).SelectMany(m => Movements(m, Day(m.At), readings.Last(r => r.At <= m.At).Percent ?? 0))]);
        return Math.Clamp(balance?.PerDay.Evaporation.Value ?? 0, 0, MostEvaporationLitresPerDay);
    }

    // What is taken out is mix of the strength last read.
    private static IEnumerable<Movement> Movements(MovementFacts movement, double day, double percent)
    {
        var added = movement.WaterLitres + movement.ConcentrateLitres;
        if (added > 0)
        {
            yield return Movement.Addition(day, new(added, 0), new(100 * movement.ConcentrateLitres / added, 0));
        }

        if (movement.RemovedLitres > 0)
        {
            yield return Movement.Removal(day, new(movement.RemovedLitres, 0), new(percent, 0));
        }
    }
}
