using ShopFluids.Calculations.Concentrations;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Concentrations;

/// <summary>Concentration from a refractometer's scale, see docs/calculations/concentration.md.</summary>
internal sealed class RefractometerCalculator : BenchCalculator
{
    private readonly BenchNumber _brix = new("brix", () => Texts.Bench_Brix, "Brix", 0, 30) { Usual = 5.6m };
    private readonly BenchNumber _water = new("waterBrix", () => Texts.Bench_WaterBrix, "Brix", -1, 5) { Usual = 0, Hint = () => Texts.Bench_WaterBrixHint };
    private readonly BenchNumber _factor = new("factor", () => Texts.Bench_Factor, "", 0.01m, 20) { Usual = 1.5m, Hint = () => Texts.Bench_FactorHint };
    private readonly BenchNumber _celsius = new("temperatureCelsius", () => Texts.Bench_SampleTemperature, "°C", 10, 30) { IsOptional = true, Hint = () => Texts.Bench_SampleTemperatureHint };
    private readonly BenchNumber _resolution = new("resolutionBrix", () => Texts.Bench_ScaleStep, "Brix", 0, 5) { Usual = 0.1m };
    private readonly BenchNumber _accuracy = new("accuracyBrix", () => Texts.Bench_Accuracy, "Brix", 0, 5) { Usual = 0.2m, Hint = () => Texts.Bench_AccuracyHint };
    private readonly BenchOutput _percent = new("percent", () => Texts.Bench_Concentration, "%", 1) { IsMain = true };
    private readonly BenchOutput _brix20 = new("brix20", () => Texts.Bench_Brix20, "Brix", 2);

    public override string Code => "refractometer";

    public override BenchFamily Family => BenchFamily.Concentration;

    public override string Title => Texts.Bench_Refractometer;

    public override string Lead => Texts.Bench_RefractometerLead;

    public override string Source => Texts.Bench_RefractometerSource;

    public override IReadOnlyList<BenchInput> Inputs => [_brix, _water, _factor, _celsius, _resolution, _accuracy];

    public override IReadOnlyList<BenchOutput> Outputs => [_percent, _brix20];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        known.Set(_factor, sump.Fluid?.RefractometerFactor);
        known.Set(_water, sump.Water?.ZeroBrix);
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var celsius = given.Optional(_celsius);
        var estimate = Refractometry.Estimate(new RefractometerReading(given[_brix], given[_water], given[_factor], celsius, given[_resolution], given[_accuracy]));
        var brix20 = celsius is { } warm ? Refractometry.CorrectTo20Celsius(given[_brix], warm) : given[_brix];
        paper.Give(_percent, estimate);
        paper.Give(_brix20, brix20);
        if (celsius is { } t)
        {
            paper.Step("B20 = B + k(B, T)", Texts.Bench_RefractometerStepTemperature, given[_brix], brix20 - given[_brix], brix20, t);
        }

        paper.Step("c = f × (B20 − Bw)", "c = {0} × ({1} − {2}) = {3} %", given[_factor], brix20, given[_water], estimate.Value);
    }
}
