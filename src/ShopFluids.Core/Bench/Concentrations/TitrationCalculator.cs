using ShopFluids.Calculations.Concentrations;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Concentrations;

/// <summary>Concentration from the acid that a sample takes, see docs/calculations/concentration.md.</summary>
internal sealed class TitrationCalculator : BenchCalculator
{
    private readonly BenchNumber _titre = new("titreMillilitres", () => Texts.Bench_Titre, "mL", 0, 10_000) { Usual = 12 };
    private readonly BenchNumber _blank = new("blankMillilitres", () => Texts.Bench_Blank, "mL", 0, 10_000) { Usual = 0.4m, Hint = () => Texts.Bench_BlankHint };
    private readonly BenchNumber _factor = new("factor", () => Texts.Bench_TitrationFactor, "%/mL", 0.0001m, 100) { Usual = 0.5m, Hint = () => Texts.Bench_TitrationFactorHint };
    private readonly BenchNumber _normality = new("normality", () => Texts.Bench_Normality, "eq/L", 0.0001m, 20) { Usual = 0.1m };
    private readonly BenchNumber _referenceNormality = new("referenceNormality", () => Texts.Bench_ReferenceNormality, "eq/L", 0.0001m, 20) { Usual = 0.1m };
    private readonly BenchNumber _sample = new("sampleMillilitres", () => Texts.Bench_Sample, "mL", 0.01m, 10_000) { Usual = 10 };
    private readonly BenchNumber _referenceSample = new("referenceSampleMillilitres", () => Texts.Bench_ReferenceSample, "mL", 0.01m, 10_000) { Usual = 10 };
    private readonly BenchOutput _percent = new("percent", () => Texts.Bench_Concentration, "%", 1) { IsMain = true };

    public override string Code => "titration";

    public override BenchFamily Family => BenchFamily.Concentration;

    public override string Title => Texts.Bench_Titration;

    public override string Lead => Texts.Bench_TitrationLead;

    public override string Source => Texts.Bench_TitrationSource;

    public override IReadOnlyList<Caution> Cautions => [Caution.GlovesAndGoggles];

    public override IReadOnlyList<BenchInput> Inputs => [_titre, _blank, _factor, _normality, _referenceNormality, _sample, _referenceSample];

    public override IReadOnlyList<BenchOutput> Outputs => [_percent];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known) => known.Set(_factor, sump.Fluid?.TitrationFactor);

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var percent = Titration.Percent(given[_titre], given[_blank], given[_factor], given[_normality], given[_referenceNormality], given[_sample], given[_referenceSample]);
        paper.Give(_percent, percent);
        paper.Step(
            "c = f × (V − Vb) × (N / Nr) × (Sr / S)",
            "c = {0} × ({1} − {2}) × ({3} / {4}) × ({5} / {6}) = {7} %",
            given[_factor],
            given[_titre],
            given[_blank],
            given[_normality],
            given[_referenceNormality],
            given[_referenceSample],
            given[_sample],
            percent);
    }
}
