using ShopFluids.Calculations.Flow;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Flow;

/// <summary>A gravity return line, see docs/calculations/flow.md.</summary>
internal sealed class ReturnLineCalculator : BenchCalculator
{
    // Fuller than this a pipe carries less again, so the curve would turn back.
    private const int MostDepth = 93;

    private readonly BenchNumber _diameter = new("insideDiameterMm", () => Texts.Bench_PipeInside, "mm", 5, 2000) { Usual = 50 };
    private readonly BenchNumber _fall = new("fallPercent", () => Texts.Bench_Fall, "%", 0.01m, 100) { Usual = 2, Hint = () => Texts.Bench_FallHint };
    private readonly BenchNumber _rough = new("roughness", () => Texts.Bench_Roughness, "", 0.005m, 0.1m) { Usual = 0.009m, Hint = () => Texts.Bench_RoughnessHint };
    private readonly BenchNumber _flow = new("flowLitresPerMinute", () => Texts.Bench_FlowToCarry, "L/min", 0, 1_000_000) { Usual = 70 };
    private readonly BenchNumber _wanted = new("wantedDepthPercent", () => Texts.Bench_FullAtMost, "%", 10, 90) { Usual = 75 };
    private readonly BenchOutput _depth = new("depthPercent", () => Texts.Bench_FullTo, "%", 0) { IsMain = true };
    private readonly BenchOutput _full = new("fullLitresPerMinute", () => Texts.Bench_CarriesFull, "L/min", 1) { IsMain = true };
    private readonly BenchOutput _load = new("loadPercent", () => Texts.Bench_LineLoad, "%", 0);
    private readonly BenchOutput _speed = new("metresPerSecond", () => Texts.Bench_Speed, "m/s", 2);

    public override string Code => "return-line";

    public override BenchFamily Family => BenchFamily.Flow;

    public override string Title => Texts.Bench_ReturnLine;

    public override string Lead => Texts.Bench_ReturnLineLead;

    public override string Source => Texts.Bench_ReturnLineSource;

    public override IReadOnlyList<BenchInput> Inputs => [_diameter, _fall, _rough, _flow, _wanted];

    public override IReadOnlyList<BenchOutput> Outputs => [_depth, _full, _load, _speed];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var line = new ReturnLine(given[_diameter], given[_fall] / 100, given[_rough]);
        var check = line.Check(FlowRate.FromLitresPerMinute(given[_flow]), given[_wanted] / 100);
        var full = check.FullCapacity.LitresPerMinute;
        paper.Give(_depth, 100 * check.DepthShare);
        paper.Give(_full, full);
        paper.Give(_load, check.LoadPercent);
        paper.Give(_speed, check.MetresPerSecond);
        var metres = given[_diameter] / 1000;
        paper.Step("v = (d / 4)^(2/3) × √S / n", "v = ({0} / 4)^(2/3) × √{1} / {2} = {3} m/s", metres, line.Slope, line.Roughness, line.FullMetresPerSecond);
        paper.Step("Q = v × π × d² / 4", "Q = {0} × π × {1}² / 4 × 60000 = {2} L/min", line.FullMetresPerSecond, metres, full);
        paper.Step("100 × Q / Qf", "100 × {0} / {1} = {2} %", given[_flow], full, check.LoadPercent);
        Say(given, check, paper);
        paper.Picture = Draw(given, line, check);
    }

    private void Say(BenchGiven given, ReturnLineCheck check, BenchPaper paper)
    {
        var (verdict, sentence) = check.State switch
        {
            ReturnLineState.Free => (Verdict.InRange, Texts.Bench_ReturnLineFree),
            ReturnLineState.NearlyFull => (Verdict.Warning, paper.Format.Say(Texts.Bench_ReturnLineNearlyFull, paper.Format.Number(given[_wanted], 0))),
            _ => (Verdict.Action, Texts.Bench_ReturnLineChokes),
        };
        paper.Find("line", verdict, sentence);
        paper.Find("margin", Verdict.NotMeasured, Texts.Bench_ReturnLineMargin);
    }

    private BenchCurves Draw(BenchGiven given, ReturnLine line, ReturnLineCheck check)
    {
        (double, double) At(int percent) => (line.CapacityAt(percent / 100.0).LitresPerMinute, percent);
        return new BenchCurves(
            Texts.Bench_AxisLitresPerMinute,
            Texts.Bench_AxisFullTo,
            [
                new BenchCurve(Texts.Bench_CurveLine, BenchCurveKind.Line, [.. Enumerable.Range(0, MostDepth + 1).Select(At)]),
                new BenchCurve("", BenchCurveKind.Points, [(given[_flow], 100 * check.DepthShare)]),
            ],
            [new BenchLevel(Texts.Bench_FullAtMost, given[_wanted])]);
    }
}
