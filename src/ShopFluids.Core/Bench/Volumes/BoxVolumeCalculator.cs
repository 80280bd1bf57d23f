using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Volumes;

/// <summary>What a rectangular sump holds at a level, see docs/calculations/volumes.md.</summary>
internal sealed class BoxVolumeCalculator : BenchCalculator
{
    private readonly BoxInputs _box = new();
    private readonly BenchNumber _level = new("levelMm", () => Texts.Bench_Level, "mm", 0, 20_000) { Usual = 313 };
    private readonly BenchNumber _step = new("levelResolutionMm", () => Texts.Bench_LevelStep, "mm", 0, 100) { Usual = 1 };
    private readonly BenchOutput _volume = new("volumeLitres", () => Texts.Bench_Holds, "L", 1) { IsMain = true };
    private readonly BenchOutput _full = new("brimLitres", () => Texts.Bench_BrimVolume, "L", 1);
    private readonly BenchOutput _each = new("litresPerMillimetre", () => Texts.Bench_EachMillimetre, "L/mm", 3);

    public override string Code => "sump-volume";

    public override BenchFamily Family => BenchFamily.Volume;

    public override string Title => Texts.Bench_BoxVolume;

    public override string Lead => Texts.Bench_BoxVolumeLead;

    public override string Source => Texts.Bench_SourceGeometry;

    public override IReadOnlyList<BenchInput> Inputs => [.. _box.Fields, _level, _step];

    public override IReadOnlyList<BenchOutput> Outputs => [_volume, _full, _each];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        if (_box.FillIn(sump, known))
        {
            known.Set(_level, sump.Level?.Value);
        }
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var sump = _box.Sump(given);
        var volume = LevelVolume.Estimate(sump, given[_level], given[_step]);
        paper.Give(_volume, volume);
        paper.Give(_full, sump.BrimLitres);
        paper.Give(_each, sump.SurfaceLitresPerMmAt(given[_level]));
        paper.Step("V = l × b × h / 10^6", "{0} × {1} × {2} / 10^6 = {3} L", sump.LengthMm, sump.WidthMm, given[_level], sump.LengthMm * sump.WidthMm * given[_level] / 1e6);
        paper.Step("V = V − d × h / B", Texts.Bench_BoxVolumeStepDisplaced, sump.DisplacedLitres, given[_level], sump.BrimMm, volume.Value);
        paper.Picture = LevelPicture.Of(sump, given[_level], paper.Format);
    }
}
