using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Volumes;

/// <summary>A sump filled to a level, as high as it is full.</summary>
internal static class LevelPicture
{
    public static BenchSumps Of(SumpGeometry sump, double levelMm, ShopFormat format)
    {
        var litres = sump.VolumeLitresAt(levelMm);
        return new BenchSumps(
            sump.BrimLitres,
            [new BenchSumpDrawing(format.Volume(litres), format.Length(levelMm), litres, 0, [new BenchMark(Texts.Bench_MarkBrim, sump.BrimLitres)]) { Shape = sump }]);
    }
}
