using ShopFluids.Calculations.Concentrations;
using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Concentrations;

/// <summary>Concentration and tramp oil by acid split, see docs/calculations/concentration.md.</summary>
internal sealed class AcidSplitCalculator : BenchCalculator
{
    private readonly BenchNumber _layer = new("layerMillilitres", () => Texts.Bench_OilLayer, "mL", 0, 10_000) { Usual = 3 };
    private readonly BenchNumber _sample = new("sampleMillilitres", () => Texts.Bench_Sample, "mL", 0.1m, 10_000) { Usual = 50 };
    private readonly BenchNumber _factor = new("splitFactor", () => Texts.Bench_SplitFactor, "", 0.001m, 100) { Usual = 1.2m, Hint = () => Texts.Bench_SplitFactorHint };
    private readonly BenchNumber _layerStep = new("layerResolutionMillilitres", () => Texts.Bench_LayerStep, "mL", 0, 10_000) { Usual = 0.1m };
    private readonly BenchNumber _sampleStep = new("sampleResolutionMillilitres", () => Texts.Bench_SampleStep, "mL", 0, 10_000) { Usual = 1 };
    private readonly BenchNumber _titrated = new("titrationPercent", () => Texts.Bench_ByTitration, "%", 0, 100) { Usual = 7, IsOptional = true, Hint = () => Texts.Bench_ByTitrationHint };
    private readonly BenchNumber _titratedUncertainty = new("titrationUncertaintyPercent", () => Texts.Bench_GiveOrTake, "%", 0, 50) { Usual = 0.4m };
    private readonly BenchNumber _oil = new("oilContentPercent", () => Texts.Bench_OilInConcentrate, "%", 0, 100) { Usual = 70 };
    private readonly BenchOutput _percent = new("percent", () => Texts.Bench_Concentration, "%", 1) { IsMain = true };
    private readonly BenchOutput _layerPercent = new("layerPercent", () => Texts.Bench_LayerPercent, "%", 2);
    private readonly BenchOutput _tramp = new("trampOilPercent", () => Texts.Bench_TrampOil, "%", 1) { IsMain = true };

    public override string Code => "acid-split";

    public override BenchFamily Family => BenchFamily.Concentration;

    public override string Title => Texts.Bench_AcidSplit;

    public override string Lead => Texts.Bench_AcidSplitLead;

    public override string Source => Texts.Bench_AcidSplitSource;

    public override IReadOnlyList<Caution> Cautions => [Caution.GlovesAndGoggles, Caution.RegulatedWaste];

    public override IReadOnlyList<BenchInput> Inputs => [_layer, _sample, _factor, _layerStep, _sampleStep, _titrated, _titratedUncertainty, _oil];

    public override IReadOnlyList<BenchOutput> Outputs => [_percent, _layerPercent, _tramp];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var (layer, sample) = (given[_layer], given[_sample]);
        var share = AcidSplit.Percent(layer, sample, 1, given[_layerStep], given[_sampleStep]);
        var percent = AcidSplit.Percent(layer, sample, given[_factor], given[_layerStep], given[_sampleStep]);
        paper.Give(_percent, percent);
        paper.Give(_layerPercent, share);
        paper.Step("s = 100 × l / S", "s = 100 × {0} / {1} = {2} %", layer, sample, share.Value);
        paper.Step("c = f × s", "c = {0} × {1} = {2} %", given[_factor], share.Value, percent.Value);
        if (given.Optional(_titrated) is { } titrated)
        {
            var tramp = AcidSplit.TrampOilPercent(share, new Estimate(titrated, given[_titratedUncertainty]), given[_oil]);
            paper.Give(_tramp, tramp);
            paper.Step("t = s − c × o / 100", "t = {0} − {1} × {2} / 100 = {3} %", share.Value, titrated, given[_oil], tramp.Value);
            if (tramp.Value < -tramp.ExpandedUncertainty)
            {
                paper.Find("negative", Verdict.Warning, Texts.Bench_TrampOilNegative);
            }
            else if (tramp.Value > tramp.ExpandedUncertainty)
            {
                paper.Find("tramp", Verdict.NotMeasured, Texts.Bench_TrampOilFound);
            }
            else
            {
                paper.Find("tramp", Verdict.InRange, Texts.Bench_TrampOilNone);
            }

            paper.Picture = new BenchBars("%", [new(Texts.Bench_BarLayer, share.Value, 1), new(Texts.Bench_BarCoolantOil, share.Value - tramp.Value, 1), new(Texts.Bench_BarTrampOil, Math.Max(0, tramp.Value), 1)]);
        }

        paper.Find("acid", Verdict.Warning, Texts.Bench_AcidBurns);
        paper.Find("synthetics", Verdict.NotMeasured, Texts.Bench_NotForSynthetics);
    }
}
