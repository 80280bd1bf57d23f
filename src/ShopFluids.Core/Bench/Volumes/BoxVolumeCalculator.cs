using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Volumes;

/// <summary>What a rectangular sump holds at a level, see docs/calculations/volumes.md.</summary>
internal sealed class BoxVolumeCalculator : BenchCalculator
{
    private readonly BenchNumber _length = new("lengthMm", () => Texts.Bench_Length, "mm", 1, 100_000) { Usual = 900 };
    private readonly BenchNumber _width = new("widthMm", () => Texts.Bench_Width, "mm", 1, 100_000) { Usual = 525 };
    private readonly BenchNumber _brim = new("brimMm", () => Texts.Bench_BrimLevel, "mm", 1, 100_000) { Usual = 381 };
    private readonly BenchNumber _displaced = new("displacedLitres", () => Texts.Bench_Displaced, "L", 0, 100_000) { Usual = 0, Hint = () => Texts.Bench_DisplacedHint };
    private readonly BenchNumber _level = new("levelMm", () => Texts.Bench_Level, "mm", 0, 100_000) { Usual = 313 };
    private readonly BenchNumber _step = new("levelResolutionMm", () => Texts.Bench_LevelStep, "mm", 0, 100) { Usual = 1 };
    private readonly BenchOutput _volume = new("volumeLitres", () => Texts.Bench_Holds, "L", 1) { IsMain = true };
    private readonly BenchOutput _full = new("brimLitres", () => Texts.Bench_BrimVolume, "L", 1);
    private readonly BenchOutput _each = new("litresPerMillimetre", () => Texts.Bench_EachMillimetre, "L/mm", 3);

    public override string Code => "sump-volume";

    public override BenchFamily Family => BenchFamily.Volume;

    public override string Title => Texts.Bench_BoxVolume;

    public override string Lead => Texts.Bench_BoxVolumeLead;

    public override string Source => Texts.Bench_SourceGeometry;

    public override IReadOnlyList<BenchInput> Inputs => [_length, _width, _brim, _displaced, _level, _step];

    public override IReadOnlyList<BenchOutput> Outputs => [_volume, _full, _each];

    public override bool UsesSump => true;

    public override IReadOnlyDictionary<string, IReadOnlyList<decimal>> From(BenchSump sump)
    {
        var known = new Dictionary<string, IReadOnlyList<decimal>>();
        if (sump.Geometry is RectangularSump box)
        {
            known[_length.Code] = One(box.LengthMm);
            known[_width.Code] = One(box.WidthMm);
            known[_brim.Code] = One(box.BrimMm);
            known[_displaced.Code] = One(box.DisplacedLitres);
            if (sump.Level is { } level)
            {
                known[_level.Code] = One(level.Value);
            }
        }

        return known;
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var sump = new RectangularSump(given[_length], given[_width], given[_brim], given[_displaced]);
        var volume = LevelVolume.Estimate(sump, given[_level], given[_step]);
        paper.Give(_volume, volume);
        paper.Give(_full, sump.BrimLitres);
        paper.Give(_each, sump.SurfaceLitresPerMmAt(given[_level]));
        paper.Step("V = l × b × h / 10^6", "{0} × {1} × {2} / 10^6 = {3} L", given[_length], given[_width], given[_level], given[_length] * given[_width] * given[_level] / 1e6);
        paper.Step("V = V − d × h / B", Texts.Bench_BoxVolumeStepDisplaced, given[_displaced], given[_level], given[_brim], volume.Value);
        paper.Picture = new BenchSumps(
            sump.BrimLitres,
            [new BenchSumpDrawing(paper.Format.Volume(volume.Value), paper.Format.Length(given[_level]), volume.Value, 0, [new BenchMark(Texts.Bench_MarkBrim, sump.BrimLitres)])]);
    }
}
