using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Volumes;

/// <summary>The inputs that describe a sump of any shape: a box by its sides, every other by a table of levels and volumes.</summary>
internal sealed class ShapeInputs
{
    private const int FilledInPoints = 21;

    private readonly BenchNumber _length = new("lengthMm", () => Texts.Bench_Length, "mm", 1, 100_000) { Usual = 900, IsOptional = true };
    private readonly BenchNumber _width = new("widthMm", () => Texts.Bench_Width, "mm", 1, 100_000) { Usual = 525, IsOptional = true };
    private readonly BenchNumber _brim = new("brimMm", () => Texts.Bench_BrimLevel, "mm", 1, 20_000) { Usual = 381, IsOptional = true };
    private readonly BenchNumber _displaced = new("displacedLitres", () => Texts.Bench_Displaced, "L", 0, 100_000) { Usual = 0, IsOptional = true, Hint = () => Texts.Bench_DisplacedHint };
    private readonly BenchSeries _levels = new("tableLevelsMm", () => Texts.Bench_TableLevels, "mm", 0, 20_000, 2) { IsOptional = true, Hint = () => Texts.Bench_TableLevelsHint };
    private readonly BenchSeries _litres = new("tableLitres", () => Texts.Bench_TableLitres, "L", 0, 1_000_000, 2) { IsOptional = true };

    public IReadOnlyList<BenchInput> Fields => [_length, _width, _brim, _displaced, _levels, _litres];

    /// <exception cref="ArgumentException">Neither a box nor a table is given whole.</exception>
    public SumpGeometry Sump(BenchGiven given)
    {
        var (levels, litres) = (given.Series(_levels), given.Series(_litres));
        if (levels.Count != litres.Count)
        {
            throw new ArgumentException(Texts.Bench_TableCounts, _litres.Code);
        }

        if (levels.Count > 0)
        {
            return new StrappingTableSump([.. levels.Zip(litres, (level, volume) => new StrappingPoint(level, volume))]);
        }

        return given.Optional(_length) is { } length && given.Optional(_width) is { } width && given.Optional(_brim) is { } brim
            ? new RectangularSump(length, width, brim, given.Optional(_displaced) ?? 0)
            : throw new ArgumentException(Texts.Bench_ShapeMissing, _length.Code);
    }

    public void FillIn(BenchSump sump, BenchKnown known)
    {
        if (sump.Geometry is RectangularSump box)
        {
            known.Set(_length, box.LengthMm);
            known.Set(_width, box.WidthMm);
            known.Set(_brim, box.BrimMm);
            known.Set(_displaced, box.DisplacedLitres);
        }
        else
        {
            var points = Points(sump.Geometry);
            known.Set(_levels, points.Select(p => p.LevelMm));
            known.Set(_litres, points.Select(p => p.VolumeLitres));
        }
    }

    /// <summary>Which input the shape means by a name of its own.</summary>
    public BenchInput? Meant(string? parameter) => string.Equals(parameter, nameof(StrappingTableSump.Points), StringComparison.OrdinalIgnoreCase) ? _levels : null;

    private static IReadOnlyList<StrappingPoint> Points(SumpGeometry shape) => shape is StrappingTableSump table
        ? table.Points
        :
        [
            .. Enumerable.Range(0, FilledInPoints)
                .Select(i => shape.BrimMm * i / (FilledInPoints - 1))
                .Select(level => new StrappingPoint(level, shape.VolumeLitresAt(level))),
        ];
}
