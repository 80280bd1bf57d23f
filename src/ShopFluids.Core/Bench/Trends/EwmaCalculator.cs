using ShopFluids.Calculations.Charts;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Trends;

/// <summary>The chart of the weighted average, which sees small lasting shifts, see docs/calculations/statistics.md.</summary>
internal sealed class EwmaCalculator : BenchCalculator
{
    private readonly BenchNumber _centre = new("centre", () => Texts.Bench_Centre, "", -1_000_000, 1_000_000) { IsOptional = true, Hint = () => Texts.Bench_CentreHint };
    private readonly BenchNumber _weight = new("weight", () => Texts.Bench_EwmaWeight, "", 0.01m, 1) { Usual = 0.3m, Hint = () => Texts.Bench_EwmaWeightHint };
    private readonly BenchNumber _width = new("widthSigmas", () => Texts.Bench_EwmaWidth, "", 0.5m, 10) { Usual = 3 };
    private readonly BenchOutput _average = new("ewma", () => Texts.Bench_EwmaNow, "", 3) { IsMain = true };
    private readonly BenchOutput _lower = new("lowerLimit", () => Texts.Bench_LowerLimitNow, "", 3);
    private readonly BenchOutput _upper = new("upperLimit", () => Texts.Bench_UpperLimitNow, "", 3);
    private readonly BenchOutput _mean = new("centreUsed", () => Texts.Bench_CentreUsed, "", 3);
    private readonly BenchOutput _deviation = new("sigmaUsed", () => Texts.Bench_Sigma, "", 3);
    private readonly BenchOutput _signals = new("beyondLimits", () => Texts.Bench_ReadingsBeyond, "", 0);
    private readonly BenchOutput _value = new("value", () => Texts.Bench_AxisValue, "", 3);
    private readonly ChartReadings _readings;

    public EwmaCalculator() => _readings = new ChartReadings([8.1m, 8.0m, 8.2m, 7.9m, 8.1m, 8.0m, 8.1m, 7.8m, 7.7m, 7.8m, 7.6m, 7.7m], _centre);

    public override string Code => "ewma-chart";

    public override BenchFamily Family => BenchFamily.Trend;

    public override string Title => Texts.Bench_Ewma;

    public override string Lead => Texts.Bench_EwmaLead;

    public override string Source => Texts.Bench_EwmaSource;

    public override IReadOnlyList<BenchInput> Inputs => [.. _readings.Fields, _weight, _width];

    public override IReadOnlyList<BenchOutput> Outputs => [_average, _lower, _upper, _mean, _deviation, _signals];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known) => _readings.FillIn(sump, known);

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var values = given.Series(_readings.Values);
        var (centre, sigma) = _readings.Scale(given, paper);
        var (weight, width) = (given[_weight], given[_width]);
        var points = EwmaChart.Points(values, centre, sigma, weight, width);
        IReadOnlyList<int> beyond = [.. Enumerable.Range(0, points.Count).Where(i => points[i].IsSignal)];
        var (last, before) = (points[^1], points[^2].Value);
        paper.Give(_average, last.Value);
        paper.Give(_lower, last.Lower);
        paper.Give(_upper, last.Upper);
        paper.Give(_mean, centre);
        paper.Give(_deviation, sigma);
        paper.Give(_signals, beyond.Count);
        paper.Step("z = λ × x + (1 − λ) × z0", "z = {0} × {1} + (1 − {0}) × {2} = {3}", weight, values[^1], before, last.Value);
        paper.Step("U = L × s × √(λ / (2 − λ) × (1 − (1 − λ)^(2i)))", "U = {0} × {1} × √({2} / (2 − {2}) × (1 − (1 − {2})^{3})) = {4}", width, sigma, weight, 2 * values.Count, last.Upper - centre);
        paper.Step("m ± U", "{0} ± {1}: {2}; {3}", centre, last.Upper - centre, last.Lower, last.Upper);
        if (beyond.Count == 0)
        {
            paper.Find("chance", Verdict.InRange, Texts.Bench_IndividualsChance);
        }
        else
        {
            paper.Find("beyond", Verdict.Warning, paper.Format.Say(Texts.Bench_EwmaBeyond, string.Join(", ", beyond.Select(i => paper.Format.Count(i + 1)))));
        }

        paper.Picture = new BenchCurves(
            Texts.Bench_AxisReadings,
            Texts.Bench_AxisValue,
            [
                ChartReadings.Drawn("", BenchCurveKind.Points, values),
                ChartReadings.Drawn(Texts.Bench_CurveAverage, BenchCurveKind.Line, points.Select(p => p.Value)),
                ChartReadings.Drawn(Texts.Bench_CurveUpperLimit, BenchCurveKind.Dashed, points.Select(p => p.Upper)),
                ChartReadings.Drawn(Texts.Bench_CurveLowerLimit, BenchCurveKind.Dashed, points.Select(p => p.Lower)),
                .. ChartReadings.Ringed(beyond, [.. points.Select(p => p.Value)]),
            ],
            [new BenchLevel(Texts.Bench_Centre, centre)]);
        paper.Table = new BenchTable(
            Texts.Bench_Reading,
            [_value, _average, _lower, _upper],
            [.. points.Select((p, i) => new BenchRow(paper.Format.Count(i + 1), [values[i], p.Value, p.Lower, p.Upper], p.IsSignal))]);
    }
}
