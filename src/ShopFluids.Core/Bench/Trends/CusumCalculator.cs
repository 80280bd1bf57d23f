using ShopFluids.Calculations.Charts;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Trends;

/// <summary>The chart of cumulative sums, which tells when a small shift began, see docs/calculations/statistics.md.</summary>
internal sealed class CusumCalculator : BenchCalculator
{
    private readonly BenchNumber _target = new("target", () => Texts.Bench_CusumTarget, "", -1_000_000, 1_000_000) { IsOptional = true, Hint = () => Texts.Bench_CentreHint };
    private readonly BenchNumber _allowance = new("allowanceSigmas", () => Texts.Bench_CusumAllowance, "", 0, 10) { Usual = 0.5m, Hint = () => Texts.Bench_CusumAllowanceHint };
    private readonly BenchNumber _decision = new("decisionSigmas", () => Texts.Bench_CusumDecision, "", 0.5m, 50) { Usual = 5, Hint = () => Texts.Bench_CusumDecisionHint };
    private readonly BenchOutput _high = new("highSum", () => Texts.Bench_CusumHigh, "", 3) { IsMain = true };
    private readonly BenchOutput _low = new("lowSum", () => Texts.Bench_CusumLow, "", 3) { IsMain = true };
    private readonly BenchOutput _limit = new("decisionLimit", () => Texts.Bench_CusumLimit, "", 3);
    private readonly BenchOutput _mean = new("targetUsed", () => Texts.Bench_CentreUsed, "", 3);
    private readonly BenchOutput _deviation = new("sigmaUsed", () => Texts.Bench_Sigma, "", 3);
    private readonly BenchOutput _signals = new("beyondLimits", () => Texts.Bench_ReadingsBeyond, "", 0);
    private readonly BenchOutput _value = new("value", () => Texts.Bench_AxisValue, "", 3);
    private readonly ChartReadings _readings;

    public CusumCalculator() => _readings = new ChartReadings([8.1m, 8.0m, 8.2m, 7.9m, 8.1m, 8.0m, 8.1m, 7.8m, 7.7m, 7.8m, 7.6m, 7.7m], _target);

    public override string Code => "cusum-chart";

    public override BenchFamily Family => BenchFamily.Trend;

    public override string Title => Texts.Bench_Cusum;

    public override string Lead => Texts.Bench_CusumLead;

    public override string Source => Texts.Bench_CusumSource;

    public override IReadOnlyList<BenchInput> Inputs => [.. _readings.Fields, _allowance, _decision];

    public override IReadOnlyList<BenchOutput> Outputs => [_high, _low, _limit, _mean, _deviation, _signals];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        _readings.FillIn(sump, known);
        known.Set(_target, sump.Fluid?.TargetPercent);
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var values = given.Series(_readings.Values);
        var (target, sigma) = _readings.Scale(given, paper);
        var (allowance, limit) = (given[_allowance] * sigma, given[_decision] * sigma);
        var chart = CusumChart.Of(values, target, allowance, limit);
        IReadOnlyList<int> beyond = [.. Enumerable.Range(0, chart.Points.Count).Where(i => chart.Points[i].IsSignal)];
        var (last, before) = (chart.Points[^1], chart.Points[^2]);
        paper.Give(_high, last.High);
        paper.Give(_low, last.Low);
        paper.Give(_limit, limit);
        paper.Give(_mean, target);
        paper.Give(_deviation, sigma);
        paper.Give(_signals, beyond.Count);
        paper.Step("k = a × s, h = d × s", "k = {0} × {1} = {2}, h = {3} × {1} = {4}", given[_allowance], sigma, allowance, given[_decision], limit);
        paper.Step("S+ = max(0, S+ + x − m − k)", "S+ = max(0, {0} + {1} − {2} − {3}) = {4}", before.High, values[^1], target, allowance, last.High);
        paper.Step("S− = max(0, S− + m − k − x)", "S− = max(0, {0} + {1} − {2} − {3}) = {4}", before.Low, target, allowance, values[^1], last.Low);
        if (chart is { FirstSignal: { } first, ShiftBegan: { } began })
        {
            var isUp = chart.Points[first].High > limit;
            paper.Find("shift", Verdict.Warning, paper.Format.Say(isUp ? Texts.Bench_CusumUp : Texts.Bench_CusumDown, paper.Format.Count(first + 1), paper.Format.Count(began + 1)));
        }
        else
        {
            paper.Find("chance", Verdict.InRange, Texts.Bench_CusumNoShift);
        }

        paper.Picture = Draw(chart, beyond, limit);
        paper.Table = new BenchTable(
            Texts.Bench_Reading,
            [_value, _high, _low],
            [.. chart.Points.Select((p, i) => new BenchRow(paper.Format.Count(i + 1), [values[i], p.High, p.Low], p.IsSignal))]);
    }

    private static BenchCurves Draw(CusumChart chart, IReadOnlyList<int> beyond, double limit) => new(
        Texts.Bench_AxisReadings,
        Texts.Bench_AxisSum,
        [
            ChartReadings.Drawn(Texts.Bench_CurveUpwards, BenchCurveKind.Line, chart.Points.Select(p => p.High)),
            ChartReadings.Drawn(Texts.Bench_CurveDownwards, BenchCurveKind.Dashed, chart.Points.Select(p => p.Low)),
            .. ChartReadings.Ringed(beyond, [.. chart.Points.Select(p => Math.Max(p.High, p.Low))]),
        ],
        [new BenchLevel(Texts.Bench_CusumLimit, limit)]);
}
