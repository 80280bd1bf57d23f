using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Volumes;

/// <summary>What a hopper or a sump with a sloped bottom holds at a level, see docs/calculations/volumes.md.</summary>
internal sealed class HopperVolumeCalculator : BenchCalculator
{
    private readonly BenchNumber _topLength = new("topLengthMm", () => Texts.Bench_TopLength, "mm", 1, 100_000) { Usual = 800 };
    private readonly BenchNumber _topWidth = new("topWidthMm", () => Texts.Bench_TopWidth, "mm", 1, 100_000) { Usual = 600 };
    private readonly BenchNumber _bottomLength = new("bottomLengthMm", () => Texts.Bench_BottomLength, "mm", 0, 100_000) { Usual = 400, Hint = () => Texts.Bench_BottomHint };
    private readonly BenchNumber _bottomWidth = new("bottomWidthMm", () => Texts.Bench_BottomWidth, "mm", 0, 100_000) { Usual = 200 };
    private readonly BenchNumber _shoulder = new("shoulderMm", () => Texts.Bench_Shoulder, "mm", 1, 20_000) { Usual = 300 };
    private readonly BenchNumber _brim = new("brimMm", () => Texts.Bench_BrimLevel, "mm", 1, 20_000) { Usual = 500 };
    private readonly BenchNumber _level = new("levelMm", () => Texts.Bench_Level, "mm", 0, 20_000) { Usual = 400 };
    private readonly BenchNumber _step = new("levelResolutionMm", () => Texts.Bench_LevelStep, "mm", 0, 100) { Usual = 1 };
    private readonly BenchOutput _volume = new("volumeLitres", () => Texts.Bench_Holds, "L", 1) { IsMain = true };
    private readonly BenchOutput _full = new("brimLitres", () => Texts.Bench_BrimVolume, "L", 1);
    private readonly BenchOutput _each = new("litresPerMillimetre", () => Texts.Bench_EachMillimetre, "L/mm", 3);

    public override string Code => "hopper-sump";

    public override BenchFamily Family => BenchFamily.Volume;

    public override string Title => Texts.Bench_Hopper;

    public override string Lead => Texts.Bench_HopperLead;

    public override string Source => Texts.Bench_SourceGeometry;

    public override IReadOnlyList<BenchInput> Inputs => [_topLength, _topWidth, _bottomLength, _bottomWidth, _shoulder, _brim, _level, _step];

    public override IReadOnlyList<BenchOutput> Outputs => [_volume, _full, _each];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var sump = new HopperSump(given[_topLength], given[_topWidth], given[_bottomLength], given[_bottomWidth], given[_shoulder], given[_brim]);
        var volume = LevelVolume.Estimate(sump, given[_level], given[_step]);
        paper.Give(_volume, volume);
        paper.Give(_full, sump.BrimLitres);
        paper.Give(_each, sump.SurfaceLitresPerMmAt(given[_level]));
        var wet = Math.Min(given[_level], given[_shoulder]);
        var (half, top) = (sump.SurfaceLitresPerMmAt(wet / 2), sump.SurfaceLitresPerMmAt(wet));
        paper.Step("V = h × (A0 + 4 × Am + A) / 6", "V = {0} × ({1} + 4 × {2} + {3}) / 6 = {4} L", wet, sump.SurfaceLitresPerMmAt(0), half, top, sump.VolumeLitresAt(wet));
        if (given[_level] > wet)
        {
            paper.Step("V = Vs + A × (h − s)", "V = {0} + {1} × ({2} − {3}) = {4} L", sump.VolumeLitresAt(wet), top, given[_level], wet, volume.Value);
        }

        paper.Picture = LevelPicture.Of(sump, given[_level], paper.Format);
    }
}
