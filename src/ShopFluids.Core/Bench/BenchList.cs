using ShopFluids.Core.Bench.Additives;
using ShopFluids.Core.Bench.Bacteria;
using ShopFluids.Core.Bench.Balances;
using ShopFluids.Core.Bench.Concentrations;
using ShopFluids.Core.Bench.Costs;
using ShopFluids.Core.Bench.Electrodes;
using ShopFluids.Core.Bench.Flow;
using ShopFluids.Core.Bench.Mixing;
using ShopFluids.Core.Bench.Skimming;
using ShopFluids.Core.Bench.Trends;
using ShopFluids.Core.Bench.Upkeep;
using ShopFluids.Core.Bench.Volumes;

namespace ShopFluids.Core.Bench;

/// <summary>All calculators, in the order in which they are shown.</summary>
public sealed class BenchList
{
    public IReadOnlyList<BenchCalculator> Calculators { get; } =
    [
        new RefractometerCalculator(),
        new TitrationCalculator(),
        new AcidSplitCalculator(),
        new MethodsCalculator(),
        new RatioCalculator(),
        new FreshMixCalculator(),
        new TopUpCalculator(),
        new DilutionCalculator(),
        new SwapCalculator(),
        new BlendCalculator(),
        new SeveralLiquidsCalculator(),
        new DoseCalculator(),
        new BoxVolumeCalculator(),
        new BoxesVolumeCalculator(),
        new HopperVolumeCalculator(),
        new StandingCylinderCalculator(),
        new LyingCylinderCalculator(),
        new RunningLevelCalculator(),
        new BacteriaGrowthCalculator(),
        new BalanceCalculator(),
        new HardnessCalculator(),
        new TrendCalculator(),
        new IndividualsCalculator(),
        new EwmaCalculator(),
        new CusumCalculator(),
        new RunDryCalculator(),
        new TurnoverCalculator(),
        new PumpPointCalculator(),
        new ReturnLineCalculator(),
        new NozzleCalculator(),
        new RiseCalculator(),
        new FlowUnitsCalculator(),
        new CleanOutCalculator(),
        new ShutdownCalculator(),
        new SkimmerCalculator(),
        new IntervalCalculator(),
        new ElectrodeCalculator(),
        new ChargeCostCalculator(),
        new DrainOrKeepCalculator(),
    ];

    /// <returns>Null when there is none of that code.</returns>
    public BenchCalculator? Find(string code) => Calculators.FirstOrDefault(c => c.Code == code);
}
