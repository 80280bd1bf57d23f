using System.Diagnostics;
using ShopFluids.Calculations.Volumes;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Benchmarks;

/// <summary>The rules as a stored reading asks them: shipped limits, eight steps of care, fifty earlier readings, no database.</summary>
internal static class EvaluateRules
{
    private const int Readings = 51;

    // Until the code is compiled for good; a shop's server is warm.
    private const int WarmUps = 30_000;
    private const int Batch = 200;
    private const int Batches = 200;

    private static readonly DateTime Start = new(2026, 1, 5, 8, 0, 0, DateTimeKind.Utc);

    /// <summary>Of the best of several batches, so that other work on the machine counts little.</summary>
    public static double BestMillisecondsForOne()
    {
        var input = MakeInput();
        var flags = 0;
        for (var run = 0; run < WarmUps; run++)
        {
            flags += RulesService.Evaluate(input).Raised.Count;
        }

        var best = double.MaxValue;
        for (var batch = 0; batch < Batches; batch++)
        {
            var started = Stopwatch.GetTimestamp();
            for (var run = 0; run < Batch; run++)
            {
                flags += RulesService.Evaluate(input).Raised.Count;
            }

            best = Math.Min(best, Stopwatch.GetElapsedTime(started).TotalMilliseconds / Batch);
        }

        return flags == 0 ? best : throw new InvalidOperationException("The reading of a healthy sump raised a flag.");
    }

    private static EvaluationInput MakeInput()
    {
        var readings = Enumerable.Range(0, Readings).Select(Reading).ToList();
        var latest = readings[^2];
        return new EvaluationInput(
            new SumpFacts("S-07", new RectangularSump(1000, 500, 400), 340, 60),
            new FluidFacts(8, 1, 15, 0.1),
            new StandingFacts(
                Start.AddDays(-1),
                9.2m,
                latest.Measurements.DistinctBy(m => m.Parameter).ToDictionary(m => m.Parameter, m => new LatestValue(m.Value, m.Uncertainty, latest.TakenAt, Verdict.InRange, Direction.None)),
                [],
                [.. Enumerable.Range(0, 8).Select(n => new OpenTask(Id(100 + n), KindOf(n), CareSchedule.CauseOf(Id(n)), Start.AddDays(7 * Readings)))]),
            readings[^1],
            [.. ShippedLimits.Default(7m, 9m).Select(l => l.Limits), CommonPractice.Level(340m, 60m).Limits],
            [.. Enumerable.Range(0, 8).Select(Step)],
            new ShopCalendar(TimeZoneInfo.FindSystemTimeZoneById("Europe/Berlin"), 6, new HashSet<DayOfWeek> { DayOfWeek.Saturday, DayOfWeek.Sunday }, new HashSet<DateOnly>()),
            readings[^1].TakenAt)
        {
            History = new([.. readings[..^1]], [.. readings[..^1].Select(r => new MovementFacts(r.TakenAt.AddMinutes(20), 9.2, 0.8, 0))]),
        };
    }

    // A sump that loses some ten litres a week and gets them back: in range, with the noise of hand instruments.
    private static ReadingFacts Reading(int week)
    {
        var random = new Random(20260101 + week);
        decimal Noise(decimal width) => width * ((decimal)random.NextDouble() - 0.5m);
        return new(Id(1000 + week), Start.AddDays(7 * week),
        [
            new(ParameterCodes.Concentration, MethodCodes.Refractometer, decimal.Round(8.2m + Noise(0.4m), 1), 0.2m) { Decimals = 1 },
            new(ParameterCodes.Ph, "", decimal.Round(9.1m + Noise(0.1m), 2), 0.1m) { Decimals = 2 },
            new(ParameterCodes.Level, "", decimal.Round(315m + Noise(6m), 0), 2m),
            new(ParameterCodes.Odour, "", 0m, 0m),
            new(ParameterCodes.TrampOil, "", 2m, 0m),
        ]);
    }

    private static CareStepFacts Step(int number) => new(
        Id(number), KindOf(number), IntervalBasis.CalendarAnchored, 7 * (1 + number), DateOnly.FromDateTime(Start), ClosedDayPolicy.Later,
        number == 0 ? [ParameterCodes.Concentration, ParameterCodes.Ph, ParameterCodes.Level] : []);

    private static TaskKind KindOf(int number) => number == 0 ? TaskKind.Test : number % 2 == 0 ? TaskKind.Skim : TaskKind.ChangeFilter;

    private static Guid Id(int number) => new(number, 0, 0, [0, 0, 0, 0, 0, 0, 0, 0]);
}
