using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Volumes;

/// <summary>The inputs that describe a rectangular sump, shared by the calculators that need its shape.</summary>
internal sealed class BoxInputs
{
    private readonly BenchNumber _length = new("lengthMm", () => Texts.Bench_Length, "mm", 1, 100_000) { Usual = 900 };
    private readonly BenchNumber _width = new("widthMm", () => Texts.Bench_Width, "mm", 1, 100_000) { Usual = 525 };
    private readonly BenchNumber _brim = new("brimMm", () => Texts.Bench_BrimLevel, "mm", 1, 20_000) { Usual = 381 };
    private readonly BenchNumber _displaced = new("displacedLitres", () => Texts.Bench_Displaced, "L", 0, 100_000) { Usual = 0, Hint = () => Texts.Bench_DisplacedHint };

    public IReadOnlyList<BenchInput> Fields => [_length, _width, _brim, _displaced];

    public RectangularSump Sump(BenchGiven given) => new(given[_length], given[_width], given[_brim], given[_displaced]);

    /// <returns>False for a sump of another shape: then nothing is set.</returns>
    public bool FillIn(BenchSump sump, BenchKnown known)
    {
        if (sump.Geometry is not RectangularSump box)
        {
            return false;
        }

        known.Set(_length, box.LengthMm);
        known.Set(_width, box.WidthMm);
        known.Set(_brim, box.BrimMm);
        known.Set(_displaced, box.DisplacedLitres);
        return true;
    }
}
