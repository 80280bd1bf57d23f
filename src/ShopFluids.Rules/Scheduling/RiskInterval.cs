using ShopFluids.Calculations.Forecasts;
using ShopFluids.Calculations.Statistics;
using ShopFluids.Rules.Course;
using ShopFluids.Rules.Drift;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Scheduling;

/// <summary>
/// The interval of a test by risk: the days until any of its parameters may be beyond a limit with more than the accepted probability, within floor and
/// ceiling. By the readings since the last large correction or exchange, those that the rule of drift looks at, and by the nearest limit that judges: a warning
/// limit, else an action limit. See <see cref="NextTest"/>.
/// </summary>
internal static class RiskInterval
{
    // With fewer, the prediction interval is wider than most limits, and every test would be due at the floor. Common practice, no source.
    private const int LeastReadings = 5;

    /// <summary>The interval after a reading that completes the test.</summary>
    /// <param name="step">The step.</param>
    /// <param name="policy">Its policy.</param>
    /// <param name="input">What the evaluation may look at.</param>
    public static TestReason After(CareStepFacts step, RiskPolicy policy, EvaluationInput input)
    {
        var reading = new RuleCase(input, RuleRegistry.Drift);
        return FollowedParameters.Codes.Where(p => step.Parameters.Contains(p, StringComparer.Ordinal))
            .Select(p => Of(p, policy, reading))
            .OfType<TestReason>()
            .MinBy(r => r.Days) ?? new(TestDaySetBy.Usual, Math.Clamp(step.IntervalDays, policy.FloorDays, policy.CeilingDays), policy.CeilingDays, policy.AcceptedPercent);
    }

    private static TestReason? Of(string parameter, RiskPolicy policy, RuleCase reading)
    {
        var (low, high) = LimitsOf(parameter, reading.Input);
        if ((low is null && high is null) || MethodOf(parameter, reading.Input) is not { } method)
        {
            return null;
        }

        var counted = CountedReadings.Of(ParameterCourse.Of(reading, parameter, method), DriftSettings.Of(reading));
        if (counted.Series.Count < LeastReadings || counted.SpanDays <= 0)
        {
            return null;
        }

        var line = StraightLine.Fit(counted.Series);
        var planned = NextTest.Plan(line, new LimitBand((double?)low, (double?)high), counted.LastDay, policy.FloorDays, policy.CeilingDays, (double)policy.AcceptedPercent / 100);
        var side = SideOf(line, low, high, planned.Day);

        // Whole days, and none on which the risk is above what is accepted.
        var days = Math.Max(policy.FloorDays, (int)Math.Floor(planned.Day - counted.LastDay + 1e-6));
        return new(
            SetBy(planned.Reason),
            days,
            policy.CeilingDays,
            policy.AcceptedPercent,
            parameter,
            side,
            side == Direction.Low ? low : high,
            planned.Risk is { } risk ? decimal.Round((decimal)risk * 100, 1) : null);
    }

    private static TestDaySetBy SetBy(NextTestReason reason) => reason switch
    {
        NextTestReason.Floor => TestDaySetBy.Floor,
        NextTestReason.Risk => TestDaySetBy.Risk,
        NextTestReason.Ceiling => TestDaySetBy.Ceiling,
        _ => throw new ArgumentOutOfRangeException(nameof(reason), reason, "Not a reason for the day of a test."),
    };

    // Methods differ by more than their noise: the trend is that of the method by which the parameter was measured last.
    private static string? MethodOf(string parameter, EvaluationInput input) =>
        (input.Reading.Decisive(parameter) ?? input.History.Readings.Reverse().Select(r => r.Decisive(parameter)).FirstOrDefault(m => m is not null))?.Method;

    // The fall since the first fill is a limit on the value itself, once the first value is known.
    private static (decimal? Low, decimal? High) LimitsOf(string parameter, EvaluationInput input)
    {
        var rows = input.Limits.Where(l => l.Parameter == parameter).ToList();
        var row = rows.Find(l => l.Basis == LimitBasis.Value);
        var (low, high) = row is null ? (null, null) : (NearestOf(row, Direction.Low), NearestOf(row, Direction.High));
        var fallen = rows.Find(l => l.Basis == LimitBasis.DropFromFirstFill) is { } drop && NearestOf(drop, Direction.High) is { } fall ? input.Standing.FirstFillPh - fall : null;
        low = low is null || fallen > low ? fallen : low;

        // After a first fill above the upper limit no value is inside both: out, whatever is read.
        return (low > high ? high : low, high);
    }

    private static decimal? NearestOf(ParameterLimits row, Direction side) => LimitRow.LimitFor(row, Verdict.Warning, side) ?? LimitRow.LimitFor(row, Verdict.Action, side);

    private static Direction SideOf(StraightLine line, decimal? low, decimal? high, double day)
    {
        double At(decimal? least, decimal? most) => OutOfLimits.ProbabilityAt(line, new LimitBand((double?)least, (double?)most), day);
        return high is null || (low is not null && At(low, null) >= At(null, high)) ? Direction.Low : Direction.High;
    }
}
