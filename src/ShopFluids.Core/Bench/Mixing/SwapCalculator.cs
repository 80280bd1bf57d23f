using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Mixing;

/// <summary>Correcting a full sump without changing its level, see docs/calculations/mixing.md.</summary>
internal sealed class SwapCalculator : BenchCalculator
{
    private readonly BenchNumber _volume = new("volumeLitres", () => Texts.Bench_VolumeNow, "L", 0, 1_000_000) { Usual = 160 };
    private readonly BenchNumber _percent = new("percent", () => Texts.Bench_ConcentrationNow, "%", 0, 100) { Usual = 5 };
    private readonly BenchNumber _refill = new("refillPercent", () => Texts.Bench_RefillPercent, "%", 0, 100) { Usual = 12, Hint = () => Texts.Bench_AddedPercentHint };
    private readonly BenchNumber _target = new("targetPercent", () => Texts.Bench_ConcentrationWanted, "%", 0, 100) { Usual = 8 };
    private readonly BenchOutput _exchange = new("exchangeLitres", () => Texts.Bench_ToExchange, "L", 1) { IsMain = true };

    public override string Code => "swap";

    public override BenchFamily Family => BenchFamily.Mixing;

    public override string Title => Texts.Bench_Swap;

    public override string Lead => Texts.Bench_SwapLead;

    public override string Source => Texts.Bench_SourceMassBalance;

    public override IReadOnlyList<Caution> Cautions => [Caution.ConcentrateIntoWater, Caution.GlovesAndGoggles, Caution.RegulatedWaste];

    public override IReadOnlyList<BenchInput> Inputs => [_volume, _percent, _refill, _target];

    public override IReadOnlyList<BenchOutput> Outputs => [_exchange];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        known.Set(_volume, sump.Volume?.Value);
        known.Set(_percent, sump.Concentration?.Value);
        known.Set(_target, sump.Fluid?.TargetPercent);
        if (sump is { Fluid: { } fluid, Concentration: { } now })
        {
            known.Set(_refill, (decimal)now.Value < fluid.TargetPercent ? fluid.PremixMaximumPercent : fluid.PremixMinimumPercent);
        }
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var litres = Swap.LitresToExchange(given[_volume], given[_percent], given[_refill], given[_target]);
        paper.Give(_exchange, litres);
        paper.Step(
            "R = V × (c − ct) / (c − m)",
            "R = {0} × ({1} − {2}) / ({1} − {3}) = {4} L",
            given[_volume],
            given[_percent],
            given[_target],
            given[_refill],
            litres);
        paper.Picture = new BenchBars("L", [new BenchBar(Texts.Bench_Stays, given[_volume] - litres, 1), new BenchBar(Texts.Bench_ToExchange, litres, 1)]);
    }
}
