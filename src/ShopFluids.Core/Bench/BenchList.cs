using ShopFluids.Core.Bench.Concentrations;
using ShopFluids.Core.Bench.Mixing;
using ShopFluids.Core.Bench.Volumes;

namespace ShopFluids.Core.Bench;

/// <summary>All calculators, in the order in which they are shown.</summary>
public sealed class BenchList
{
    public IReadOnlyList<BenchCalculator> Calculators { get; } =
    [
        new RefractometerCalculator(),
        new TitrationCalculator(),
        new RatioCalculator(),
        new FreshMixCalculator(),
        new TopUpCalculator(),
        new DilutionCalculator(),
        new SwapCalculator(),
        new BlendCalculator(),
        new BoxVolumeCalculator(),
    ];

    /// <returns>Null when there is none of that code.</returns>
    public BenchCalculator? Find(string code) => Calculators.FirstOrDefault(c => c.Code == code);
}
