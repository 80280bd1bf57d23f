using ShopFluids.Calculations.Flow;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Flow;

/// <summary>Where a pump and what it feeds meet, see docs/calculations/flow.md.</summary>
internal sealed class PumpPointCalculator : BenchCalculator
{
    private const int Points = 40;

    private readonly BenchSeries _flows = new("pumpFlowsLitresPerMinute", () => Texts.Bench_PumpFlows, "L/min", 0, 1_000_000, 2) { Usual = [0, 40, 80, 100], Hint = () => Texts.Bench_PumpFlowsHint };
    private readonly BenchSeries _heads = new("pumpHeadsMetres", () => Texts.Bench_PumpHeads, "m", 0, 20_000, 2) { Usual = [12, 10, 6, 2], Hint = () => Texts.Bench_PumpHeadsHint };
    private readonly BenchNumber _lift = new("staticHeadMetres", () => Texts.Bench_Lift, "m", 0, 20_000) { Usual = 3 };
    private readonly BenchNumber _flow = new("knownFlowLitresPerMinute", () => Texts.Bench_KnownFlow, "L/min", 0.001m, 1_000_000) { Usual = 60 };
    private readonly BenchNumber _head = new("knownHeadMetres", () => Texts.Bench_KnownHead, "m", 0, 20_000) { Usual = 8 };
    private readonly BenchOutput _works = new("flowLitresPerMinute", () => Texts.Bench_Delivers, "L/min", 1) { IsMain = true };
    private readonly BenchOutput _at = new("headMetres", () => Texts.Bench_AtHead, "m", 1) { IsMain = true };

    public override string Code => "pump-point";

    public override BenchFamily Family => BenchFamily.Flow;

    public override string Title => Texts.Bench_PumpPoint;

    public override string Lead => Texts.Bench_PumpPointLead;

    public override string Source => Texts.Bench_PumpPointSource;

    public override IReadOnlyList<Caution> Cautions => [Caution.LockOut];

    public override IReadOnlyList<BenchInput> Inputs => [_flows, _heads, _lift, _flow, _head];

    public override IReadOnlyList<BenchOutput> Outputs => [_works, _at];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var (flows, heads) = (given.Series(_flows), given.Series(_heads));
        if (flows.Count != heads.Count)
        {
            throw new ArgumentOutOfRangeException(_heads.Code, heads.Count, Texts.Bench_PumpPointCounts);
        }

        var pump = new PumpCurve([.. flows.Zip(heads, (flow, head) => new PumpPoint(FlowRate.FromLitresPerMinute(flow), head))]);
        var system = new PumpSystem(given[_lift], FlowRate.FromLitresPerMinute(given[_flow]), given[_head]);
        var point = system.PointWith(pump);
        var at = point.Flow.LitresPerMinute;
        paper.Give(_works, at);
        paper.Give(_at, point.HeadMetres);
        paper.Step(
            "H(Q) = H0 + (H1 − H0) × (Q / Q1)²",
            "H({3}) = {0} + ({1} − {0}) × ({3} / {2})² = {4} m",
            given[_lift],
            given[_head],
            given[_flow],
            at,
            system.HeadMetresAt(point.Flow));
        paper.Step("Hp(Q)", Texts.Bench_PumpPointStep, at, point.HeadMetres);
        var (verdict, sentence) = point.State switch
        {
            SystemPointState.Found => (Verdict.InRange, Texts.Bench_PumpPointFound),
            SystemPointState.NoFlow => (Verdict.Action, Texts.Bench_PumpPointNoFlow),
            _ => (Verdict.Warning, Texts.Bench_PumpPointBeyond),
        };
        paper.Find("point", verdict, sentence);
        paper.Picture = Draw(pump, system, point);
    }

    private static BenchCurves Draw(PumpCurve pump, PumpSystem system, SystemPoint point)
    {
        // What the system asks for beyond what the pump could ever give is of no interest and would press the rest flat.
        var asked = Enumerable.Range(0, Points + 1)
            .Select(i => FlowRate.FromLitresPerMinute(pump.LargestFlow.LitresPerMinute * i / Points))
            .Select(f => (X: f.LitresPerMinute, Y: system.HeadMetresAt(f)))
            .Where(p => p.X == 0 || p.Y <= 1.2 * pump.ShutOffHeadMetres);
        return new BenchCurves(
            Texts.Bench_AxisLitresPerMinute,
            Texts.Bench_AxisHead,
            [
                new BenchCurve(Texts.Bench_CurvePump, BenchCurveKind.Line, [.. pump.Points.Select(p => (p.Flow.LitresPerMinute, p.HeadMetres))]),
                new BenchCurve(Texts.Bench_CurveSystem, BenchCurveKind.Dashed, [.. asked]),
                new BenchCurve("", BenchCurveKind.Points, [(point.Flow.LitresPerMinute, point.HeadMetres)]),
            ],
            [])
        {
            XUnit = "L/min",
        };
    }

    protected override BenchInput? Meant(string? parameter) => string.Equals(parameter, nameof(PumpCurve.Points), StringComparison.OrdinalIgnoreCase) ? _flows : null;
}
