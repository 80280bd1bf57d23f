using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Volumes;

/// <summary>What a lying round tank holds at a level, see docs/calculations/volumes.md.</summary>
internal sealed class LyingCylinderCalculator : BenchCalculator
{
    private readonly BenchNumber _diameter = new("diameterMm", () => Texts.Bench_Diameter, "mm", 1, 20_000) { Usual = 1000 };
    private readonly BenchNumber _length = new("lengthMm", () => Texts.Bench_Length, "mm", 1, 100_000) { Usual = 2000 };
    private readonly BenchNumber _level = new("levelMm", () => Texts.Bench_Level, "mm", 0, 20_000) { Usual = 250 };
    private readonly BenchNumber _step = new("levelResolutionMm", () => Texts.Bench_LevelStep, "mm", 0, 100) { Usual = 1 };
    private readonly BenchOutput _volume = new("volumeLitres", () => Texts.Bench_Holds, "L", 1) { IsMain = true };
    private readonly BenchOutput _full = new("brimLitres", () => Texts.Bench_BrimVolume, "L", 1);
    private readonly BenchOutput _each = new("litresPerMillimetre", () => Texts.Bench_EachMillimetre, "L/mm", 3);

    public override string Code => "lying-tank";

    public override BenchFamily Family => BenchFamily.Volume;

    public override string Title => Texts.Bench_LyingCylinder;

    public override string Lead => Texts.Bench_LyingCylinderLead;

    public override string Source => Texts.Bench_SourceGeometry;

    public override IReadOnlyList<BenchInput> Inputs => [_diameter, _length, _level, _step];

    public override IReadOnlyList<BenchOutput> Outputs => [_volume, _full, _each];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var sump = new HorizontalCylinderSump(given[_diameter], given[_length]);
        var volume = LevelVolume.Estimate(sump, given[_level], given[_step]);
        paper.Give(_volume, volume);
        paper.Give(_full, sump.BrimLitres);
        paper.Give(_each, sump.SurfaceLitresPerMmAt(given[_level]));
        var share = HorizontalCylinderSump.FractionAt(given[_level] / given[_diameter]);
        paper.Step("A / A0 = (x − sin x) / 2π,  sin(x / 4) = √(h / d)", Texts.Bench_LyingStepShare, given[_level], given[_diameter], 100 * share);
        paper.Step("V = π × d² × L / 4 / 10^6 × A / A0", "V = {0} × {1} % = {2} L", sump.BrimLitres, 100 * share, volume.Value);
        paper.Picture = LevelPicture.Of(sump, given[_level], paper.Format);
    }
}
