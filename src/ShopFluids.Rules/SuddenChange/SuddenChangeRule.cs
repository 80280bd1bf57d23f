using ShopFluids.Rules.Course;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.SuddenChange;

/// <summary>
/// Flags a value that has changed since the last reading by more than this charge's own changes and what is known to have been put in,
/// taken out or evaporated explain: the moving range of the chart of individuals, NIST/SEMATECH e-Handbook 6.3.2.2. The reading before the
/// last has to say the same, so that the way back from one wrong reading is no finding.
/// </summary>
public sealed class SuddenChangeRule : IRule
{
    /// <summary>The rule's code.</summary>
    public const string RuleCode = "sudden-change";

    /// <summary>Number: fewest earlier changes to judge by.</summary>
    public const string LeastChanges = "leastChanges";

    /// <summary>Number: times the mean change, what a change may be.</summary>
    public const string LimitFactor = "limitFactor";

    /// <summary>Number: readings farther apart than so many days are not compared.</summary>
    public const string LongestGapDays = "longestGapDays";

    /// <summary>Number: of anything but concentration, how many percent of the fluid may have been exchanged between readings that are compared.</summary>
    public const string LargestExchangePercent = "largestExchangePercent";

    /// <summary>Number: on so many later days the new value must have been found again to become the usual one.</summary>
    public const string SettlesAfterDays = "settlesAfterDays";

    // How much of the limit the value must differ from the reading before the last, too. While a flag is open: all of it, because the way back
    // from a wrong reading lies between. Chosen by simulation.
    private const double ShareSeenEarlier = 0.5;

    private static readonly TaskKind[] SecondLook = [TaskKind.Test];
    private static readonly TaskKind[] LookForTheCause = [TaskKind.Inspect];

    /// <inheritdoc/>
    public string Code => RuleCode;

    /// <inheritdoc/>
    public int Version => 2;

    /// <inheritdoc/>
    public IReadOnlyList<RuleNumber> Numbers { get; } =
    [
        new(LeastChanges, 8, 4, 25) { IsWhole = true },
        // D4 of ranges of two, NIST/SEMATECH e-Handbook 6.3.2.2.
        new(LimitFactor, 3.267m, 2, 6),
        new(LongestGapDays, 35, 7, 366),
        new(LargestExchangePercent, 30, 5, 100),
        new(SettlesAfterDays, 3, 1, 10) { IsWhole = true },
    ];

    /// <inheritdoc/>
    public IEnumerable<RuleOpinion> Check(RuleCase reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        var settings = new ChangeLimit.Settings(
            (int)reading.Number(LeastChanges),
            (double)reading.Number(LimitFactor),
            (double)reading.Number(LongestGapDays),
            (double)reading.Number(LargestExchangePercent) / 100);
        foreach (var parameter in FollowedParameters.Codes)
        {
            if (reading.Measured(parameter) is not null && Opinion(reading, parameter, settings) is { } opinion)
            {
                yield return opinion;
            }
        }
    }

    /// <inheritdoc/>
    public IReadOnlyList<TaskKind> WorkFor(FlagKey flag, bool isConfirmed) => isConfirmed ? LookForTheCause : SecondLook;

    private RuleOpinion? Opinion(RuleCase reading, string parameter, ChangeLimit.Settings settings)
    {
        var found = Found(reading, parameter, settings);
        if (reading.OpenFlag(parameter) is not { } open || (found?.Flag is { } other && other.Direction != open.Direction))
        {
            return found;
        }

        if (NewLevel.Of(reading, open) is not { } level || !level.StillStands((int)reading.Number(SettlesAfterDays), reading.Input.Calendar))
        {
            return RuleOpinion.None(parameter);
        }

        return found?.Flag is not null && level.HasGoneOn()
            ? found with { IsAnother = true }
            : RuleOpinion.Of(new(Code, Version, parameter, open.Severity, open.Direction, open.Numbers));
    }

    // The method that decides, or where it has too short a past to judge by, the other one.
    private RuleOpinion? Found(RuleCase reading, string parameter, ChangeLimit.Settings settings)
    {
        foreach (var course in ParameterCourse.Continued(reading, parameter))
        {
            if (ChangeLimit.Of(course, settings) is { } limit)
            {
                return Judge(course, settings, limit, reading.OpenFlag(parameter) is null ? ShareSeenEarlier : 1);
            }
        }

        return null;
    }

    private RuleOpinion? Judge(ParameterCourse course, ChangeLimit.Settings settings, ChangeLimit limit, double shareSeenEarlier)
    {
        var points = course.Span;
        var last = points.Length - 1;
        var (before, now) = (points[last - 1], points[last]);
        if (!settings.Compares(before, now, course.Parameter)
            || !settings.Compares(points[last - 2], before, course.Parameter)
            || course.Expected(last - 1, last) is not { } expected
            || course.Expected(last - 2, last) is not { } expectedEarlier)
        {
            return null;
        }

        var (change, changeEarlier) = (Unexplained(now.Value, expected), Unexplained(now.Value, expectedEarlier));
        return IsBeyond(change, limit.Limit) && IsBeyond(changeEarlier, limit.Limit * shareSeenEarlier) && Math.Sign(change) == Math.Sign(changeEarlier)
            ? RuleOpinion.Of(Raise(course.Parameter, before, now, change, limit))
            : RuleOpinion.None(course.Parameter);
    }

    private RaisedFlag Raise(string parameter, CoursePoint before, CoursePoint now, double change, ChangeLimit limit)
    {
        var numbers = new SortedDictionary<string, decimal>(StringComparer.Ordinal)
        {
            [NumberNames.Value] = now.Value,
            [NumberNames.TakenAt] = NewLevel.MomentOf(now.TakenAt),
            [NumberNames.Previous] = before.Value,
            [NumberNames.ExpectedChange] = decimal.Round(now.Value - before.Value - (decimal)change, 3),
            [NumberNames.ChangeLimit] = decimal.Round((decimal)limit.Limit, 3),
            [NumberNames.Changes] = limit.Changes,
        };
        return new(Code, Version, parameter, Verdict.Warning, change > 0 ? Direction.High : Direction.Low, numbers);
    }

    private static double Unexplained(decimal value, (double Least, double Most) expected) =>
        (double)value - Math.Clamp((double)value, expected.Least, expected.Most);

    // Rounded, so that a change of exactly the limit is inside it also in binary.
    private static bool IsBeyond(double change, double limit) => Math.Round(Math.Abs(change) - limit, 9) > 0;
}
