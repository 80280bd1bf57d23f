using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;

namespace ShopFluids.Core.Bench.Mixing;

/// <summary>What a sump knows of a mix: how much, how strong, how strong it should be.</summary>
internal static class SumpMix
{
    public static Dictionary<string, IReadOnlyList<decimal>> Of(BenchSump sump, BenchNumber volume, BenchNumber percent, BenchNumber target)
    {
        var known = new Dictionary<string, IReadOnlyList<decimal>>();
        if (sump.Volume is { } litres)
        {
            known[volume.Code] = [decimal.Round((decimal)litres.Value, 1)];
        }

        if (sump.Concentration is { } now)
        {
            known[percent.Code] = [decimal.Round((decimal)now.Value, 1)];
        }

        if (sump.Fluid is { } fluid)
        {
            known[target.Code] = [fluid.TargetPercent];
        }

        return known;
    }
}
