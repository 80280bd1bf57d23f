using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Mixing;

/// <summary>Two mixes for one between them, see docs/calculations/mixing.md.</summary>
internal sealed class BlendCalculator : BenchCalculator
{
    private readonly BenchNumber _total = new("totalLitres", () => Texts.Bench_MixVolume, "L", 0.1m, 1_000_000) { Usual = 100 };
    private readonly BenchNumber _low = new("lowPercent", () => Texts.Bench_LeanerMix, "%", 0, 100) { Usual = 3 };
    private readonly BenchNumber _high = new("highPercent", () => Texts.Bench_RicherMix, "%", 0, 100) { Usual = 12 };
    private readonly BenchNumber _target = new("targetPercent", () => Texts.Bench_ConcentrationWanted, "%", 0, 100) { Usual = 8 };
    private readonly BenchOutput _lowLitres = new("lowLitres", () => Texts.Bench_OfLeaner, "L", 1) { IsMain = true };
    private readonly BenchOutput _highLitres = new("highLitres", () => Texts.Bench_OfRicher, "L", 1) { IsMain = true };

    public override string Code => "blend";

    public override BenchFamily Family => BenchFamily.Mixing;

    public override string Title => Texts.Bench_Blend;

    public override string Lead => Texts.Bench_BlendLead;

    public override string Source => Texts.Bench_BlendSource;

    public override IReadOnlyList<BenchInput> Inputs => [_total, _low, _high, _target];

    public override IReadOnlyList<BenchOutput> Outputs => [_lowLitres, _highLitres];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var (high, low) = Alligation.Litres(given[_total], given[_low], given[_high], given[_target]);
        paper.Give(_lowLitres, low);
        paper.Give(_highLitres, high);
        paper.Step(
            "H = V × (ct − l) / (h − l)",
            "H = {0} × ({1} − {2}) / ({3} − {2}) = {4} L",
            given[_total],
            given[_target],
            given[_low],
            given[_high],
            high);
        paper.Step("L = V − H", "L = {0} − {1} = {2} L", given[_total], high, low);
        paper.Picture = new BenchBars("L", [new BenchBar(Texts.Bench_OfLeaner, low, 1), new BenchBar(Texts.Bench_OfRicher, high, 1)]);
    }
}
