using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Volumes;

/// <summary>What an L-shaped or stepped sump holds at a level, see docs/calculations/volumes.md.</summary>
internal sealed class BoxesVolumeCalculator : BenchCalculator
{
    private readonly BenchNumber _length = new("lengthMm", () => Texts.Bench_Length, "mm", 1, 100_000) { Usual = 1000 };
    private readonly BenchNumber _width = new("widthMm", () => Texts.Bench_Width, "mm", 1, 100_000) { Usual = 500 };
    private readonly BenchNumber _shelfLength = new("shelfLengthMm", () => Texts.Bench_ShelfLength, "mm", 1, 100_000) { Usual = 600 };
    private readonly BenchNumber _shelfWidth = new("shelfWidthMm", () => Texts.Bench_ShelfWidth, "mm", 1, 100_000) { Usual = 400 };
    private readonly BenchNumber _shelf = new("shelfBottomMm", () => Texts.Bench_ShelfBottom, "mm", 0, 20_000) { Usual = 150, Hint = () => Texts.Bench_ShelfBottomHint };
    private readonly BenchNumber _brim = new("brimMm", () => Texts.Bench_BrimLevel, "mm", 1, 20_000) { Usual = 400 };
    private readonly BenchNumber _level = new("levelMm", () => Texts.Bench_Level, "mm", 0, 20_000) { Usual = 200 };
    private readonly BenchNumber _step = new("levelResolutionMm", () => Texts.Bench_LevelStep, "mm", 0, 100) { Usual = 1 };
    private readonly BenchOutput _volume = new("volumeLitres", () => Texts.Bench_Holds, "L", 1) { IsMain = true };
    private readonly BenchOutput _full = new("brimLitres", () => Texts.Bench_BrimVolume, "L", 1);
    private readonly BenchOutput _each = new("litresPerMillimetre", () => Texts.Bench_EachMillimetre, "L/mm", 3);

    public override string Code => "l-shaped-sump";

    public override BenchFamily Family => BenchFamily.Volume;

    public override string Title => Texts.Bench_Boxes;

    public override string Lead => Texts.Bench_BoxesLead;

    public override string Source => Texts.Bench_SourceGeometry;

    public override IReadOnlyList<BenchInput> Inputs => [_length, _width, _shelfLength, _shelfWidth, _shelf, _brim, _level, _step];

    public override IReadOnlyList<BenchOutput> Outputs => [_volume, _full, _each];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var sump = new BoxesSump([new SumpBox(given[_length], given[_width], 0), new SumpBox(given[_shelfLength], given[_shelfWidth], given[_shelf])], given[_brim]);
        var volume = LevelVolume.Estimate(sump, given[_level], given[_step]);
        paper.Give(_volume, volume);
        paper.Give(_full, sump.BrimLitres);
        paper.Give(_each, sump.SurfaceLitresPerMmAt(given[_level]));
        var over = Math.Max(0, given[_level] - given[_shelf]);
        paper.Step(
            "V = (l1 × b1 × h + l2 × b2 × (h − s)) / 10^6",
            "V = ({0} × {1} × {2} + {3} × {4} × {5}) / 10^6 = {6} L",
            given[_length],
            given[_width],
            given[_level],
            given[_shelfLength],
            given[_shelfWidth],
            over,
            volume.Value);
        paper.Picture = LevelPicture.Of(sump, given[_level], paper.Format);
    }

    protected override BenchInput? Meant(string? parameter) => string.Equals(parameter, nameof(BoxesSump.Boxes), StringComparison.OrdinalIgnoreCase) ? _shelf : null;
}
