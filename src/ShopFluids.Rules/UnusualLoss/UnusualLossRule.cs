using System.Runtime.InteropServices;
using ShopFluids.Calculations.Statistics;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.UnusualLoss;

/// <summary>
/// Flags a sump that loses much more than this charge usually does: a leak, more evaporation, more carried off. Conservation of volume between two
/// readings of level; what is usual is the median of the charge's own rates and their robust spread, so that no rate of any handbook is needed.
/// How far is too far is common practice, no source.
/// </summary>
public sealed class UnusualLossRule : IRule
{
    /// <summary>The rule's code.</summary>
    public const string RuleCode = "unusual-loss";

    /// <summary>Number: fewest earlier intervals to judge by.</summary>
    public const string LeastIntervals = "leastIntervals";

    /// <summary>Number: how many spreads above the usual rate.</summary>
    public const string Spreads = "spreads";

    /// <summary>Number: the smallest excess in a week that counts, % of the sump at the full mark.</summary>
    public const string LeastPercentPerWeek = "leastPercentPerWeek";

    // Half a year of weekly readings, and what a rule held by hand tells. Common practice, no source.
    private const int MostIntervals = 25;
    private const double LeastLevelUncertaintyMm = 4;

    // In a few hours the reading of the level tells more of the reader than of the sump; over many weeks the rate is no rate of now. Common practice, no source.
    private const double ShortestDays = 1;
    private const double LongestDays = 21;

    private static readonly TaskKind[] LookForTheCause = [TaskKind.Inspect];

    /// <inheritdoc/>
    public string Code => RuleCode;

    /// <inheritdoc/>
    public int Version => 1;

    /// <inheritdoc/>
    public IReadOnlyList<RuleNumber> Numbers { get; } = [new(LeastIntervals, 6, 4, 25) { IsWhole = true }, new(Spreads, 4, 2, 10), new(LeastPercentPerWeek, 5, 1, 50)];

    /// <inheritdoc/>
    public IEnumerable<RuleOpinion> Check(RuleCase reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        if (reading.Measured(ParameterCodes.Level) is not { } level)
        {
            yield break;
        }

        var intervals = Intervals(reading);
        if (intervals.Count <= reading.Number(LeastIntervals) || !intervals[^1].EndsWithThisReading)
        {
            yield break;
        }

        var current = intervals[^1];
        var before = new List<double>(MostIntervals);
        for (var i = Math.Max(0, intervals.Count - 1 - MostIntervals); i < intervals.Count - 1; i++)
        {
            before.Add(intervals[i].LitresPerDay);
        }

        var usual = RobustScale.Median(before);
        var noise = LeastLevelUncertaintyMm * reading.Input.Sump.Geometry.SurfaceLitresPerMmAt((double)level.Value) / Math.Sqrt(2) / current.Days;
        var spread = Math.Max(RobustScale.Deviation(before), noise);
        var least = reading.Input.Sump.Geometry.VolumeLitresAt(reading.Input.Sump.FullMarkMm) * (double)reading.Number(LeastPercentPerWeek) / 100 / 7;
        var limit = Math.Max((double)reading.Number(Spreads) * spread, least);

        // An open flag ends once the excess is down to half of what raises one.
        var excess = current.LitresPerDay - usual;
        yield return excess > (reading.OpenFlag("") is null ? limit : limit / 2)
            ? RuleOpinion.Of(Raise(current, usual))
            : RuleOpinion.None("");
    }

    /// <inheritdoc/>
    public IReadOnlyList<TaskKind> WorkFor(FlagKey flag, bool isConfirmed) => LookForTheCause;

    private RaisedFlag Raise(Interval interval, double usualPerDay) => new(Code, Version, "", Verdict.Warning, Direction.None, new SortedDictionary<string, decimal>(StringComparer.Ordinal)
    {
        [NumberNames.Days] = decimal.Round((decimal)interval.Days, 1),
        [NumberNames.LostLitres] = decimal.Round((decimal)(interval.LitresPerDay * interval.Days), 1),
        [NumberNames.UsualLitres] = decimal.Round((decimal)(Math.Max(0, usualPerDay) * interval.Days), 1),
    });

    private static List<Interval> Intervals(RuleCase reading)
    {
        var (readings, movements) = (reading.Input.History.Readings, reading.Input.History.Movements);
        var litres = reading.Courses.Litres;
        var (intervals, next) = (new List<Interval>(readings.Count), 0);
        Content? before = null;
        for (var i = 0; i <= readings.Count; i++)
        {
            var content = new Content(i < readings.Count ? readings[i].TakenAt : reading.TakenAt, litres[i]);
            if (double.IsNaN(content.Litres))
            {
                continue;
            }

            if (before is not { } last)
            {
                before = content;
                continue;
            }

            var days = (content.At - last.At).TotalDays;
            if (days < ShortestDays)
            {
                continue;
            }

            var put = 0.0;
            while (next < movements.Count && movements[next].At < content.At)
            {
                // At the very moment of a reading it was made after it.
                put += movements[next].At >= last.At ? movements[next].WaterLitres + movements[next].ConcentrateLitres - movements[next].RemovedLitres : 0;
                next++;
            }

            if (days <= LongestDays)
            {
                intervals.Add(new(days, (last.Litres + put - content.Litres) / days, i == readings.Count));
            }

            before = content;
        }

        return intervals;
    }

    [StructLayout(LayoutKind.Auto)]
    private readonly record struct Content(DateTime At, double Litres);

    [StructLayout(LayoutKind.Auto)]
    private readonly record struct Interval(double Days, double LitresPerDay, bool EndsWithThisReading);
}
