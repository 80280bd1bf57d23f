using ShopFluids.Calculations.Mixing;
using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Tests.Mixing;

/// <summary>A sump of 420 L to the brim whose pump uncovers at 100 L, to be changed argument by argument.</summary>
internal static class Some
{
    public static TopUpRequest TopUp(
        double volume,
        double percent,
        double targetVolume,
        double targetPercent,
        double minimum = 0,
        double maximum = 10,
        double brim = 420,
        double intake = 100,
        double measurable = 0.1,
        double volumeUncertainty = 0,
        double percentUncertainty = 0,
        double? acceptedMinimum = null,
        double? acceptedMaximum = null) =>
        new(
            new Estimate(volume, volumeUncertainty),
            new Estimate(percent, percentUncertainty),
            targetVolume,
            targetPercent,
            minimum,
            maximum,
            brim,
            intake,
            measurable,
            acceptedMinimum,
            acceptedMaximum);
}
