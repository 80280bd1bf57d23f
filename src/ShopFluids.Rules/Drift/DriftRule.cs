using ShopFluids.Rules.Course;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Drift;

/// <summary>
/// Flags a trend that is no chance (Mann-Kendall) and meets a limit soon (Theil-Sen), while the value is still inside: in time for a test or
/// an adjustment before the limit is crossed.
/// </summary>
public sealed class DriftRule : IRule
{
    /// <summary>The rule's code.</summary>
    public const string RuleCode = "drift";

    /// <summary>Number: how far ahead a limit must lie to be met.</summary>
    public const string HorizonDays = DriftSettings.HorizonDaysName;

    /// <summary>Number: the two-sided p up to which a trend is believed.</summary>
    public const string Significance = DriftSettings.SignificanceName;

    /// <summary>Number: fewest readings to judge by.</summary>
    public const string LeastReadings = DriftSettings.LeastReadingsName;

    /// <summary>Number: how many readings are judged by.</summary>
    public const string UsualReadings = DriftSettings.UsualReadingsName;

    /// <summary>Number: how many days they reach back over.</summary>
    public const string UsualDays = DriftSettings.UsualDaysName;

    /// <summary>Number: a correction of the concentration by so much begins anew.</summary>
    public const string LargeCorrectionPercent = DriftSettings.LargeCorrectionPercentName;

    /// <summary>Number: an exchange of so much of the fluid begins anew.</summary>
    public const string LargeExchangePercent = DriftSettings.LargeExchangePercentName;

    // A date farther off is no date.
    private const double MostDays = 3660;

    // Common practice, no source.
    private static readonly TimeSpan LongestWait = TimeSpan.FromDays(7);
    private static readonly TimeSpan ShortestWait = TimeSpan.FromDays(1);
    private static readonly TaskKind[] EarlierTest = [TaskKind.Test];
    private static readonly TaskKind[] AdjustInTime = [TaskKind.Adjust, TaskKind.Test];
    private static readonly TaskKind[] LookForTheCause = [TaskKind.Inspect, TaskKind.Test];

    /// <inheritdoc/>
    public string Code => RuleCode;

    /// <inheritdoc/>
    public int Version => 2;

    /// <inheritdoc/>
    public IReadOnlyList<RuleNumber> Numbers => DriftSettings.Numbers;

    /// <inheritdoc/>
    public bool AsksForASecondLook => false;

    /// <inheritdoc/>
    public IEnumerable<RuleOpinion> Check(RuleCase reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        var settings = DriftSettings.Of(reading);
        foreach (var parameter in FollowedParameters.Codes)
        {
            if (reading.Measured(parameter) is not null && Opinion(reading, parameter, settings) is { } opinion)
            {
                yield return opinion;
            }
        }
    }

    /// <inheritdoc/>
    public IReadOnlyList<TaskKind> WorkFor(FlagKey flag, bool isConfirmed) =>
        !isConfirmed ? EarlierTest : flag.Parameter == ParameterCodes.Concentration ? AdjustInTime : LookForTheCause;

    /// <summary>Half of the time that is left, at least a day and at most a week.</summary>
    public TimeSpan? WorkWithin(RaisedFlag flag)
    {
        ArgumentNullException.ThrowIfNull(flag);
        var half = TimeSpan.FromDays((double)flag.Numbers[NumberNames.DaysUntil] / 2);
        return half < ShortestWait ? ShortestWait : half > LongestWait ? LongestWait : half;
    }

    private RuleOpinion? Opinion(RuleCase reading, string parameter, DriftSettings settings)
    {
        var row = reading.Input.Limits.FirstOrDefault(l => l.Parameter == parameter && l.Basis == LimitBasis.Value);
        if (row is null)
        {
            return RuleOpinion.None(parameter);
        }

        var beganAnew = false;
        foreach (var course in ParameterCourse.Continued(reading, parameter))
        {
            var counted = CountedReadings.Of(course, settings);
            if (counted.Series.Count >= settings.LeastReadings)
            {
                return Judge(reading, course, row, counted, settings);
            }

            beganAnew |= counted.BeganAnew;
        }

        // Of the trend that was flagged nothing is left when the mix was corrected; of a method that has no past nothing follows.
        return beganAnew ? RuleOpinion.None(parameter) : null;
    }

    private RuleOpinion Judge(RuleCase reading, ParameterCourse course, ParameterLimits row, CountedReadings counted, DriftSettings settings)
    {
        // Of the method whose trend it is: two methods differ by more than their noise.
        var (parameter, value) = (course.Parameter, course.Points[^1].Value);
        var openSide = reading.OpenFlag(parameter)?.Direction;
        var trend = Trend.Of(counted, row, side => settings.LargestPValue(side == openSide));
        return trend is null
            || !settings.IsSoon(trend, counted.SpanDays, trend.Direction == openSide)
            || IsLimitCrossed(reading, value, row, trend.Direction)
            ? RuleOpinion.None(parameter)
            : RuleOpinion.Of(Raise(parameter, value, trend, counted.Series.Count));
    }

    // Beyond, or not yet far enough inside for the limit's own flag to end.
    private static bool IsLimitCrossed(RuleCase reading, decimal value, ParameterLimits row, Direction side)
    {
        if (LimitRow.Judge(value, row) is { IsBeyond: true } judged && judged.Direction == side)
        {
            return true;
        }

        return reading.Input.Standing.OpenFlags.Any(f => f.Rule == LimitRule.Code && f.Parameter == row.Parameter && f.Direction == side)
            && LimitRow.LimitFor(row, Verdict.Warning, side) is { } limit
            && (LimitRow.ClearsAt(limit, side, row.ClearMargin) - value) * (side == Direction.Low ? 1 : -1) > 0;
    }

    private RaisedFlag Raise(string parameter, decimal value, Trend trend, int readings)
    {
        var numbers = new SortedDictionary<string, decimal>(StringComparer.Ordinal)
        {
            [NumberNames.Value] = value,
            [NumberNames.Limit] = trend.Limit,
            [NumberNames.SlopePerWeek] = decimal.Round((decimal)(7 * trend.SlopePerDay), 3),
            [NumberNames.DaysUntil] = decimal.Round((decimal)trend.Days, 1),
            [NumberNames.DaysEarliest] = decimal.Round((decimal)trend.Earliest, 1),
            [NumberNames.Readings] = readings,
        };
        if (trend.Latest is { } latest && latest < MostDays)
        {
            numbers[NumberNames.DaysLatest] = decimal.Round((decimal)latest, 1);
        }

        return new(Code, Version, parameter, Verdict.Warning, trend.Direction, numbers);
    }
}
