using ShopFluids.Calculations.Flow;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Flow;

/// <summary>Flow and speed of a jet, see docs/calculations/flow.md.</summary>
internal sealed class NozzleCalculator : BenchCalculator
{
    private const int Points = 40;

    private readonly BenchNumber _pressure = new("pressureBar", () => Texts.Bench_PressureBefore, "bar", 0, 1000) { Usual = 2 };
    private readonly BenchNumber _nozzle = new("nozzleMm", () => Texts.Bench_NozzleInside, "mm", 0.05m, 500) { Usual = 4 };
    private readonly BenchNumber _count = new("nozzles", () => Texts.Bench_Nozzles, "", 1, 1000) { Usual = 1 };
    private readonly BenchNumber _coefficient = new("dischargeCoefficient", () => Texts.Bench_Discharge, "", 0.3m, 1) { Usual = 0.8m, Hint = () => Texts.Bench_DischargeHint };
    private readonly BenchNumber _density = new("densityKgPerCubicMetre", () => Texts.Bench_FluidDensity, "kg/m³", 500, 2000) { Usual = 1000 };
    private readonly BenchOutput _total = new("totalLitresPerMinute", () => Texts.Bench_AllNozzles, "L/min", 1) { IsMain = true };
    private readonly BenchOutput _speed = new("metresPerSecond", () => Texts.Bench_JetSpeed, "m/s", 1) { IsMain = true };
    private readonly BenchOutput _each = new("litresPerMinute", () => Texts.Bench_EachNozzle, "L/min", 2);

    public override string Code => "nozzle";

    public override BenchFamily Family => BenchFamily.Flow;

    public override string Title => Texts.Bench_Nozzle;

    public override string Lead => Texts.Bench_NozzleLead;

    public override string Source => Texts.Bench_NozzleSource;

    public override IReadOnlyList<Caution> Cautions => [Caution.LockOut, Caution.GlovesAndGoggles];

    public override IReadOnlyList<BenchInput> Inputs => [_pressure, _nozzle, _count, _coefficient, _density];

    public override IReadOnlyList<BenchOutput> Outputs => [_total, _speed, _each];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var count = given.Whole(_count);
        var speed = Jet.MetresPerSecond(given[_pressure], given[_density]);
        var flow = At(given[_pressure], given);
        paper.Give(_total, count * flow);
        paper.Give(_speed, speed);
        paper.Give(_each, flow);
        paper.Step("v = √(2 × p / ρ)", "v = √(2 × {0} × 10^5 / {1}) = {2} m/s", given[_pressure], given[_density], speed);
        paper.Step("Q = C × v × π × d² / 4", "Q = {0} × {1} × π × {2}² / 4 × 0.06 = {3} L/min", given[_coefficient], speed, given[_nozzle], flow);
        paper.Step("n × Q", "{0} × {1} = {2} L/min", count, flow, count * flow);
        paper.Find("skin", Verdict.Warning, Texts.Bench_NozzleSkin);
        var most = Math.Min(1000, Math.Max(1, 2 * given[_pressure]));
        paper.Picture = new BenchCurves(
            Texts.Bench_AxisBar,
            Texts.Bench_AxisLitresPerMinute,
            [
                new BenchCurve(Texts.Bench_CurveAllNozzles, BenchCurveKind.Line, [.. Enumerable.Range(0, Points + 1).Select(i => most * i / Points).Select(p => (p, count * At(p, given)))]),
                new BenchCurve("", BenchCurveKind.Points, [(given[_pressure], count * flow)]),
            ],
            [])
        {
            XUnit = "bar",
            YUnit = "L/min",
        };
    }

    private double At(double pressureBar, BenchGiven given) => Jet.Through(given[_nozzle], pressureBar, given[_density], given[_coefficient]).LitresPerMinute;
}
