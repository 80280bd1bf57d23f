using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Mixing;

/// <summary>Concentrate and water for a wanted amount, see docs/calculations/mixing.md.</summary>
internal sealed class FreshMixCalculator : BenchCalculator
{
    private readonly BenchNumber _volume = new("volumeLitres", () => Texts.Bench_MixVolume, "L", 0.1m, 1_000_000) { Usual = 20 };
    private readonly BenchNumber _percent = new("percent", () => Texts.Bench_ConcentrationWanted, "%", 0.01m, 100) { Usual = 8 };
    private readonly BenchNumber _step = new("measurableLitres", () => Texts.Bench_MeasureTo, "L", 0.001m, 1000) { Usual = 0.1m };
    private readonly BenchOutput _water = new("waterLitres", () => Texts.Bench_Water, "L", 1) { IsMain = true };
    private readonly BenchOutput _concentrate = new("concentrateLitres", () => Texts.Bench_Concentrate, "L", 1) { IsMain = true };
    private readonly BenchOutput _expected = new("expectedPercent", () => Texts.Bench_EndsAt, "%", 2);
    private readonly BenchOutput _rounding = new("roundingPercent", () => Texts.Bench_RoundingShift, "%", 3);

    public override string Code => "fresh-mix";

    public override BenchFamily Family => BenchFamily.Mixing;

    public override string Title => Texts.Bench_FreshMix;

    public override string Lead => Texts.Bench_FreshMixLead;

    public override string Source => Texts.Bench_SourceMassBalance;

    public override IReadOnlyList<Caution> Cautions => [Caution.ConcentrateIntoWater, Caution.GlovesAndGoggles];

    public override IReadOnlyList<BenchInput> Inputs => [_volume, _percent, _step];

    public override IReadOnlyList<BenchOutput> Outputs => [_water, _concentrate, _expected, _rounding];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known) => known.Set(_percent, sump.Fluid?.TargetPercent);

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var recipe = FreshMix.Plan(given[_volume], given[_percent], given[_step]);
        paper.Give(_water, recipe.WaterLitres);
        paper.Give(_concentrate, recipe.ConcentrateLitres);
        paper.Give(_expected, recipe.ExpectedPercent);
        paper.Give(_rounding, recipe.RoundingPercent);
        paper.Step("X = V × c / 100", "X = {0} × {1} / 100 = {2} L", given[_volume], given[_percent], given[_volume] * given[_percent] / 100);
        paper.Step("W = V − X", Texts.Bench_MixStepRounded, given[_volume] - (given[_volume] * given[_percent] / 100), recipe.ConcentrateLitres, recipe.WaterLitres);
        paper.Step("c = 100 × X / (X + W)", "c = 100 × {0} / {1} = {2} %", recipe.ConcentrateLitres, recipe.MixedLitres, recipe.ExpectedPercent);
        paper.Picture = new BenchBars("L", [new BenchBar(Texts.Bench_Water, recipe.WaterLitres, 1), new BenchBar(Texts.Bench_Concentrate, recipe.ConcentrateLitres, 1)]);
    }
}
