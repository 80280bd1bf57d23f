using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Mixing;

/// <summary>How much of something leaner or richer brings a sump to a concentration, see docs/calculations/mixing.md.</summary>
internal sealed class DilutionCalculator : BenchCalculator
{
    private readonly BenchNumber _volume = new("volumeLitres", () => Texts.Bench_VolumeNow, "L", 0, 1_000_000) { Usual = 150 };
    private readonly BenchNumber _percent = new("percent", () => Texts.Bench_ConcentrationNow, "%", 0, 100) { Usual = 11 };
    private readonly BenchNumber _added = new("addedPercent", () => Texts.Bench_AddedPercent, "%", 0, 100) { Usual = 0, Hint = () => Texts.Bench_AddedPercentHint };
    private readonly BenchNumber _target = new("targetPercent", () => Texts.Bench_ConcentrationWanted, "%", 0, 100) { Usual = 8 };
    private readonly BenchOutput _add = new("addLitres", () => Texts.Bench_ToAdd, "L", 1) { IsMain = true };
    private readonly BenchOutput _ends = new("endsLitres", () => Texts.Bench_EndsWith, "L", 1);

    public override string Code => "dilution";

    public override BenchFamily Family => BenchFamily.Mixing;

    public override string Title => Texts.Bench_Dilution;

    public override string Lead => Texts.Bench_DilutionLead;

    public override string Source => Texts.Bench_SourceMassBalance;

    public override IReadOnlyList<BenchInput> Inputs => [_volume, _percent, _added, _target];

    public override IReadOnlyList<BenchOutput> Outputs => [_add, _ends];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        known.Set(_volume, sump.Volume?.Value);
        known.Set(_percent, sump.Concentration?.Value);
        known.Set(_target, sump.Fluid?.TargetPercent);
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var litres = Dilution.LitresToAdd(given[_volume], given[_percent], given[_added], given[_target]);
        paper.Give(_add, litres);
        paper.Give(_ends, given[_volume] + litres);
        paper.Step(
            "A = V × (c − ct) / (ct − a)",
            "A = {0} × ({1} − {2}) / ({2} − {3}) = {4} L",
            given[_volume],
            given[_percent],
            given[_target],
            given[_added],
            litres);
        paper.Picture = new BenchBars("L", [new BenchBar(Texts.Bench_VolumeNow, given[_volume], 1), new BenchBar(Texts.Bench_ToAdd, litres, 1)]);
    }
}
