using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Patterns;

/// <summary>
/// How volume and concentration have changed between the last two full readings beyond what was put in and taken out: what
/// evaporation, carry-off, a leak or foreign water leave behind. Conservation of mass.
/// </summary>
internal static class PatternMix
{
    // Where none is stated, as in rule balance: a rule held by hand, the least that a hand refractometer tells, what was poured. Common practice, no source.
    private const double LeastLevelUncertaintyMm = 4;
    private const double LeastConcentrationUncertainty = 0.2;
    private const double PouredWithin = 0.1;

    private static readonly TimeSpan ShortestGap = TimeSpan.FromHours(4);
    private static readonly TimeSpan AddedLately = TimeSpan.FromDays(21);

    /// <summary>Change of the volume in % of the sump at the full mark, and of the concentration in % v/v.</summary>
    /// <param name="sought">What may be looked at.</param>
    /// <param name="longestGap">Readings farther apart are not compared, and the later one counts for no longer.</param>
    public static IEnumerable<(string Subject, PatternNumber Change)> Changes(PatternCase sought, TimeSpan longestGap)
    {
        var readings = sought.History.Readings;
        var last = LastFull(sought, readings.Count - 1, DateTime.MaxValue);
        if (last < 0 || readings[^1].TakenAt - readings[last].TakenAt > longestGap)
        {
            yield break;
        }

        var now = readings[last];
        var first = LastFull(sought, last - 1, now.TakenAt - ShortestGap);
        if (first < 0 || now.TakenAt - readings[first].TakenAt > longestGap)
        {
            yield break;
        }

        var (from, to) = (StateOf(sought, readings[first]), StateOf(sought, now));
        var between = sought.History.Movements.Where(m => m.At >= readings[first].TakenAt && m.At < now.TakenAt).ToList();
        var (put, concentrate, taken) = (between.Sum(m => m.WaterLitres + m.ConcentrateLitres), between.Sum(m => m.ConcentrateLitres), between.Sum(m => m.RemovedLitres));
        var poured = PouredWithin * (put + taken);
        var full = sought.Sump.Geometry.VolumeLitresAt(sought.Sump.FullMarkMm);
        var expected = from.Litres + put - taken;
        yield return (ParameterCodes.Level, Percent(to.Litres - expected, Root(from.LitresUncertainty, to.LitresUncertainty, poured), full));
        if (expected > 0)
        {
            // A wrong amount poured moves the concentration by its share of the sump.
            var strength = ((from.Percent * (from.Litres - taken)) + (100 * concentrate)) / expected;
            var pouredPercent = put > 0 ? poured * Math.Abs((100 * concentrate / put) - from.Percent) / expected : 0;
            yield return (ParameterCodes.Concentration, new((decimal)(to.Percent - strength), (decimal)Root(from.PercentUncertainty, to.PercentUncertainty, pouredPercent)));
        }
    }

    /// <summary>The strength of what was put in during the last three weeks, in % of the target; null where nothing was.</summary>
    public static PatternNumber? AddedShare(PatternCase sought, DateTime at)
    {
        var lately = sought.History.Movements.Where(m => m.At <= at && at - m.At <= AddedLately).ToList();
        var litres = lately.Sum(m => m.WaterLitres + m.ConcentrateLitres);
        return litres > 0 && sought.TargetPercent > 0
            ? new((decimal)(100 * (100 * lately.Sum(m => m.ConcentrateLitres) / litres) / sought.TargetPercent), 0)
            : null;
    }

    // The last reading up to a place and a moment that tells both.
    private static int LastFull(PatternCase sought, int from, DateTime latest)
    {
        for (var i = from; i >= 0; i--)
        {
            var reading = sought.History.Readings[i];
            if (reading.TakenAt <= latest
                && PatternFacts.Decisive(reading, ParameterCodes.Level) is { Value: >= 0 } level
                && (double)level.Value <= sought.Sump.Geometry.BrimMm
                && PatternFacts.Decisive(reading, ParameterCodes.Concentration) is not null)
            {
                return i;
            }
        }

        return -1;
    }

    private static MixState StateOf(PatternCase sought, ReadingFacts reading)
    {
        var geometry = sought.Sump.Geometry;
        var (level, percent) = (PatternFacts.Decisive(reading, ParameterCodes.Level), PatternFacts.Decisive(reading, ParameterCodes.Concentration));
        var millimetres = (double)(level?.Value ?? 0);
        return new(
            geometry.VolumeLitresAt(millimetres),
            Math.Max((double)(level?.Uncertainty ?? 0), LeastLevelUncertaintyMm) * geometry.SurfaceLitresPerMmAt(millimetres),
            (double)(percent?.Value ?? 0),
            Math.Max((double)(percent?.Uncertainty ?? 0), LeastConcentrationUncertainty));
    }

    private static PatternNumber Percent(double litres, double uncertainty, double full) => new((decimal)(100 * litres / full), (decimal)(100 * uncertainty / full));

    private static double Root(double one, double other, double third) => Math.Sqrt((one * one) + (other * other) + (third * third));

    private sealed record MixState(double Litres, double LitresUncertainty, double Percent, double PercentUncertainty);
}
