using ShopFluids.Calculations.Concentrations;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Concentrations;

/// <summary>The spoken forms of a mix, kept apart, see docs/calculations/concentration.md.</summary>
internal sealed class RatioCalculator : BenchCalculator
{
    private const string Parts = "parts";
    private const string OneIn = "oneIn";
    private const string Percent = "percent";

    private readonly BenchChoice _meant = new("meant", () => Texts.Bench_RatioMeant, [new(Parts, () => Texts.Bench_RatioParts), new(OneIn, () => Texts.Bench_RatioOneIn), new(Percent, () => Texts.Bench_RatioPercent)]);
    private readonly BenchNumber _number = new("number", () => Texts.Bench_RatioNumber, "", 0.001m, 10_000) { Usual = 20 };
    private readonly BenchOutput _percent = new("percent", () => Texts.Bench_Concentration, "%", 2) { IsMain = true };
    private readonly BenchOutput _parts = new("waterParts", () => Texts.Bench_RatioPartsOut, "", 2);
    private readonly BenchOutput _oneIn = new("oneIn", () => Texts.Bench_RatioOneInOut, "", 2);

    public override string Code => "ratio";

    public override BenchFamily Family => BenchFamily.Concentration;

    public override string Title => Texts.Bench_Ratio;

    public override string Lead => Texts.Bench_RatioLead;

    public override string Source => Texts.Bench_SourceDefinition;

    public override IReadOnlyList<BenchInput> Inputs => [_meant, _number];

    public override IReadOnlyList<BenchOutput> Outputs => [_percent, _parts, _oneIn];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var number = given[_number];
        var percent = given.Choice(_meant) switch
        {
            Parts => MixRatio.PercentFromParts(number),
            OneIn => MixRatio.PercentFromOneIn(number),
            _ => Concentration.FromPercent(number).Percent,
        };
        paper.Give(_percent, percent);
        paper.Give(_parts, MixRatio.PartsFromPercent(percent));
        paper.Give(_oneIn, MixRatio.OneInFromPercent(percent));
        paper.Step("c = 100 / (1 + N)", "{2} % = 100 / (1 + {0}) = 100 / {1}", MixRatio.PartsFromPercent(percent), MixRatio.OneInFromPercent(percent), percent);
    }
}
