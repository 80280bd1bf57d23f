using ShopFluids.Calculations.Forecasts;
using ShopFluids.Calculations.Statistics;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Trends;

/// <summary>Where readings are heading, when a limit is met, and when to test next, see docs/calculations/forecast.md.</summary>
internal sealed class TrendCalculator : BenchCalculator
{
    private const double Confidence = 0.9;
    private const int PointsDrawn = 40;

    private readonly BenchSeries _days = new("days", () => Texts.Bench_Days, "d", 0, 100_000, 3) { Usual = [0, 7, 14, 21, 28], Hint = () => Texts.Bench_DaysHint };
    private readonly BenchSeries _values = new("values", () => Texts.Bench_Values, "", -1_000_000, 1_000_000, 3) { Usual = [9.20m, 9.10m, 9.10m, 8.95m, 8.95m], Hint = () => Texts.Bench_TrendValuesHint };
    private readonly BenchNumber _low = new("lowLimit", () => Texts.Bench_LowLimit, "", -1_000_000, 1_000_000) { Usual = 8.5m };
    private readonly BenchNumber _high = new("highLimit", () => Texts.Bench_HighLimit, "", -1_000_000, 1_000_000) { Usual = 9.5m };
    private readonly BenchNumber _floor = new("floorDays", () => Texts.Bench_FloorDays, "d", 0, 365) { Usual = 2 };
    private readonly BenchNumber _ceiling = new("ceilingDays", () => Texts.Bench_CeilingDays, "d", 1, 365) { Usual = 30 };
    private readonly BenchNumber _risk = new("riskPercent", () => Texts.Bench_Risk, "%", 0.1m, 50) { Usual = 5 };
    private readonly BenchOutput _next = new("nextTestDay", () => Texts.Bench_NextTest, "d", 0) { IsMain = true };
    private readonly BenchOutput _slope = new("slopePerDay", () => Texts.Bench_Slope, "", 4);
    private readonly BenchOutput _probability = new("trendProbability", () => Texts.Bench_TrendChance, "", 3);
    private readonly BenchOutput _riskThen = new("riskThenPercent", () => Texts.Bench_RiskThen, "%", 1);

    public override string Code => "trend";

    public override BenchFamily Family => BenchFamily.Trend;

    public override string Title => Texts.Bench_Trend;

    public override string Lead => Texts.Bench_TrendLead;

    public override string Source => Texts.Bench_TrendSource;

    public override IReadOnlyList<BenchInput> Inputs => [_days, _values, _low, _high, _floor, _ceiling, _risk];

    public override IReadOnlyList<BenchOutput> Outputs => [_next, _slope, _probability, _riskThen];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        var read = sump.Series[ParameterCodes.Ph].ToList();
        if (read.Count >= _values.LeastCount && read[^1].TakenAtUtc - read[0].TakenAtUtc >= TimeSpan.FromDays(1))
        {
            known.Set(_days, read.Select(r => (r.TakenAtUtc - read[0].TakenAtUtc).TotalDays));
            known.Set(_values, read.Select(r => r.Value));
        }
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var (days, values) = (given.Series(_days), given.Series(_values));
        var series = Series.From(days, values);
        var line = StraightLine.Fit(series);
        var slope = TheilSen.Fit(series, Confidence);
        var limits = new LimitBand(given[_low], given[_high]);
        var last = days.Max();
        var next = NextTest.Plan(line, limits, last, given[_floor], given[_ceiling], given[_risk] / 100);
        var chance = series.Count >= 4 ? MannKendall.Test(series).PValue : 1;
        paper.Give(_next, next.Day - last);
        paper.Give(_slope, slope.Slope, slope is { Low: { } least, High: { } most } ? (most - least) / 2 : null);
        paper.Give(_probability, chance);
        paper.Give(_riskThen, 100 * (next.Risk ?? 0));
        paper.Step("y = b0 + b1 × t", "y = {0} + {1} × t; s = {2}", line.Intercept, line.Slope, line.ResidualDeviation);
        paper.Step("P = T((low \u2212 y) / u) + T((y \u2212 high) / u)", Texts.Bench_TrendStep, next.Day, line.At(next.Day), 100 * (next.Risk ?? 0));
        Say(LimitForecast.Of(line, limits, last, last + 365, Confidence), next, last, paper);
        paper.Picture = Draw(days, values, line, limits, Math.Max(next.Day, last + 1));
    }

    private static void Say(LimitForecast forecast, NextTest next, double last, BenchPaper paper)
    {
        var format = paper.Format;
        paper.Find("reason", next.Reason == NextTestReason.Floor ? Verdict.Warning : Verdict.InRange, next.Reason switch
        {
            NextTestReason.Ceiling => Texts.Bench_NextCeiling,
            NextTestReason.Risk => format.Say(Texts.Bench_NextRisk, format.Number(next.Day - last, 0)),
            _ => Texts.Bench_NextFloor,
        });
        paper.Find("forecast", Verdict.NotMeasured, forecast switch
        {
            { HasTrend: false } => Texts.Bench_NoTrend,
            { Side: LimitSide.None } => Texts.Bench_NoLimitMet,
            { Earliest: { } earliest, Expected: { } expected } => format.Say(
                forecast.Side == LimitSide.Low ? Texts.Bench_LowMet : Texts.Bench_HighMet,
                format.Number(earliest - last, 0),
                format.Number(expected - last, 0)),
            { Earliest: { } earliest } => format.Say(forecast.Side == LimitSide.Low ? Texts.Bench_LowPossible : Texts.Bench_HighPossible, format.Number(earliest - last, 0)),
            _ => Texts.Bench_NoLimitMet,
        });
    }

    private static BenchCurves Draw(IReadOnlyList<double> days, IReadOnlyList<double> values, StraightLine line, LimitBand limits, double until)
    {
        var from = days.Min();
        var times = Enumerable.Range(0, PointsDrawn + 1).Select(i => from + ((until - from) * i / PointsDrawn)).ToList();
        var band = times.Select(t => (Time: t, Interval: line.PredictionInterval(t, Confidence))).ToList();
        return new BenchCurves(
            Texts.Bench_AxisDays,
            Texts.Bench_AxisValue,
            [
                new BenchCurve("", BenchCurveKind.Points, [.. days.Zip(values).OrderBy(p => p.First).Select(p => (p.First, p.Second))]),
                new BenchCurve(Texts.Bench_CurveTrend, BenchCurveKind.Line, [.. times.Select(t => (t, line.At(t)))]),
                new BenchCurve(Texts.Bench_CurveHigh, BenchCurveKind.Dashed, [.. band.Select(b => (b.Time, b.Interval.High))]),
                new BenchCurve(Texts.Bench_CurveLow, BenchCurveKind.Dashed, [.. band.Select(b => (b.Time, b.Interval.Low))]),
            ],
            [new BenchLevel(Texts.Bench_LowLimit, limits.Low ?? 0), new BenchLevel(Texts.Bench_HighLimit, limits.High ?? 0)]);
    }
}
