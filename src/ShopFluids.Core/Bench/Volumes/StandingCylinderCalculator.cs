using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Volumes;

/// <summary>What a standing drum or round tank holds at a level, see docs/calculations/volumes.md.</summary>
internal sealed class StandingCylinderCalculator : BenchCalculator
{
    private readonly BenchNumber _diameter = new("diameterMm", () => Texts.Bench_Diameter, "mm", 1, 20_000) { Usual = 570 };
    private readonly BenchNumber _brim = new("brimMm", () => Texts.Bench_BrimLevel, "mm", 1, 20_000) { Usual = 850 };
    private readonly BenchNumber _level = new("levelMm", () => Texts.Bench_Level, "mm", 0, 20_000) { Usual = 400 };
    private readonly BenchNumber _step = new("levelResolutionMm", () => Texts.Bench_LevelStep, "mm", 0, 100) { Usual = 1 };
    private readonly BenchOutput _volume = new("volumeLitres", () => Texts.Bench_Holds, "L", 1) { IsMain = true };
    private readonly BenchOutput _full = new("brimLitres", () => Texts.Bench_BrimVolume, "L", 1);
    private readonly BenchOutput _each = new("litresPerMillimetre", () => Texts.Bench_EachMillimetre, "L/mm", 3);

    public override string Code => "drum";

    public override BenchFamily Family => BenchFamily.Volume;

    public override string Title => Texts.Bench_StandingCylinder;

    public override string Lead => Texts.Bench_StandingCylinderLead;

    public override string Source => Texts.Bench_SourceGeometry;

    public override IReadOnlyList<BenchInput> Inputs => [_diameter, _brim, _level, _step];

    public override IReadOnlyList<BenchOutput> Outputs => [_volume, _full, _each];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var sump = new VerticalCylinderSump(given[_diameter], given[_brim]);
        var volume = LevelVolume.Estimate(sump, given[_level], given[_step]);
        paper.Give(_volume, volume);
        paper.Give(_full, sump.BrimLitres);
        paper.Give(_each, sump.SurfaceLitresPerMmAt(given[_level]));
        paper.Step("V = π × d² × h / 4 / 10^6", "V = π × {0}² × {1} / 4 / 10^6 = {2} L", given[_diameter], given[_level], volume.Value);
        paper.Picture = LevelPicture.Of(sump, given[_level], paper.Format);
    }
}
