using ShopFluids.Calculations.Flow;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Flow;

/// <summary>How fast oil rises and chips sink, see docs/calculations/flow.md.</summary>
internal sealed class RiseCalculator : BenchCalculator
{
    private const int Points = 40;
    private const double SmallestMicrometres = 0.1;
    private const double LargestMicrometres = 10_000;

    private readonly BenchNumber _size = new("diameterMicrometres", () => Texts.Bench_DropSize, "µm", 0.1m, 10_000) { Usual = 100 };
    private readonly BenchNumber _density = new("densityKgPerCubicMetre", () => Texts.Bench_DropDensity, "kg/m³", 100, 25_000) { Usual = 880, Hint = () => Texts.Bench_DropDensityHint };
    private readonly BenchNumber _fluid = new("fluidDensityKgPerCubicMetre", () => Texts.Bench_FluidDensity, "kg/m³", 500, 2000) { Usual = 1000 };
    private readonly BenchNumber _viscosity = new("viscosityMilliPascalSeconds", () => Texts.Bench_Viscosity, "mPa·s", 0.1m, 10_000) { Usual = 1, Hint = () => Texts.Bench_ViscosityHint };
    private readonly BenchNumber _depth = new("depthMm", () => Texts.Bench_DepthToCross, "mm", 0, 20_000) { Usual = 300 };
    private readonly BenchNumber _seconds = new("seconds", () => Texts.Bench_TimeForIt, "s", 0.1m, 1_000_000_000) { Usual = 210, Hint = () => Texts.Bench_TimeForItHint };
    private readonly BenchOutput _speed = new("millimetresPerSecond", () => Texts.Bench_RiseSpeed, "mm/s", 3) { IsMain = true };
    private readonly BenchOutput _takes = new("secondsToCross", () => Texts.Bench_TakesToCross, "s", 0) { IsMain = true };
    private readonly BenchOutput _smallest = new("smallestMicrometres", () => Texts.Bench_SmallestDrop, "µm", 1);
    private readonly BenchOutput _reynolds = new("reynolds", () => Texts.Bench_Reynolds, "", 3);

    public override string Code => "rise-and-settle";

    public override BenchFamily Family => BenchFamily.Flow;

    public override string Title => Texts.Bench_Rise;

    public override string Lead => Texts.Bench_RiseLead;

    public override string Source => Texts.Bench_RiseSource;

    public override IReadOnlyList<BenchInput> Inputs => [_size, _density, _fluid, _viscosity, _depth, _seconds];

    public override IReadOnlyList<BenchOutput> Outputs => [_speed, _takes, _smallest, _reynolds];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        // Asked first: it refuses a density too near the fluid's, with which nothing would move.
        var smallest = Stokes.SmallestMicrometres(given[_depth], given[_seconds], given[_density], given[_fluid], given[_viscosity]);
        var speed = Stokes.Speed(given[_size], given[_density], given[_fluid], given[_viscosity]);
        var takes = speed.SecondsOver(given[_depth]) ?? 0;
        paper.Give(_speed, Math.Abs(speed.MillimetresPerSecond));
        paper.Give(_takes, takes);
        paper.Give(_smallest, smallest);
        paper.Give(_reynolds, speed.Reynolds);
        paper.Step(
            "v = g × d² × (ρf − ρ) / (18 × µ)",
            "v = 9.80665 × ({0} × 10^−6)² × ({1} − {2}) / (18 × {3} × 10^−3) = {4} mm/s",
            given[_size],
            given[_fluid],
            given[_density],
            given[_viscosity],
            speed.MillimetresPerSecond);
        paper.Step("t = h / v", "t = {0} / {1} = {2} s", given[_depth], Math.Abs(speed.MillimetresPerSecond), takes);
        paper.Step("Re = ρf × v × d / µ", "Re = {0} × {1} × {2} / {3} × 10^−6 = {4}", given[_fluid], Math.Abs(speed.MillimetresPerSecond), given[_size], given[_viscosity], speed.Reynolds);
        var enough = takes <= given[_seconds];
        paper.Find("way", enough ? Verdict.InRange : Verdict.Warning, (speed.MillimetresPerSecond > 0, enough) switch
        {
            (true, true) => Texts.Bench_RiseInTime,
            (true, false) => Texts.Bench_RiseTooSlow,
            (false, true) => Texts.Bench_SettleInTime,
            _ => Texts.Bench_SettleTooSlow,
        });
        paper.Find("law", speed.Range == StokesRange.TooFast ? Verdict.Warning : Verdict.NotMeasured, speed.Range switch
        {
            StokesRange.Holds => Texts.Bench_StokesHolds,
            StokesRange.Approximate => Texts.Bench_StokesApproximate,
            _ => Texts.Bench_StokesTooFast,
        });
        paper.Picture = Draw(given);
    }

    private BenchCurves Draw(BenchGiven given)
    {
        double SpeedOf(double micrometres) => Stokes.Speed(micrometres, given[_density], given[_fluid], given[_viscosity]).MillimetresPerSecond;
        var most = Math.Min(LargestMicrometres, 2 * given[_size]);
        var least = Math.Max(SmallestMicrometres, most / Points);
        return new BenchCurves(
            Texts.Bench_AxisMicrometres,
            Texts.Bench_AxisMillimetresPerSecond,
            [
                new BenchCurve(Texts.Bench_CurveStokes, BenchCurveKind.Line, [.. Enumerable.Range(0, Points + 1).Select(i => double.Lerp(least, most, i / (double)Points)).Select(d => (d, Math.Abs(SpeedOf(d))))]),
                new BenchCurve("", BenchCurveKind.Points, [(given[_size], Math.Abs(SpeedOf(given[_size])))]),
            ],
            []);
    }
}
