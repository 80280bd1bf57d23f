using ShopFluids.Core.Machines;

namespace ShopFluids.Core.Record;

/// <summary>For how many years what is recorded must be kept. Nothing is thrown away when they are over: they say until when nothing may be.</summary>
/// <param name="FluidYears">Of analyses of fluids and what was done to them.</param>
/// <param name="ExposureYears">Of what tells to what people were exposed: here the doses of biocides and fungicides.</param>
public sealed record Retention(int FluidYears, int ExposureYears)
{
    /// <summary>Good practice guide of UKLA and HSE for metalworking fluids, 2018; second hand.</summary>
    public const int UsualFluidYears = 5;

    /// <summary>The same guide, of exposure and health records; second hand.</summary>
    public const int UsualExposureYears = 40;

    public const int LeastYears = 1;

    /// <summary>Longer than anybody works: a larger number is a slip of the finger.</summary>
    public const int MostYears = 100;

    public static Retention Of(Site? site) => new(site?.FluidKeepYears ?? UsualFluidYears, site?.ExposureKeepYears ?? UsualExposureYears);

    /// <summary>The last day on which something must be kept.</summary>
    public static DateOnly Until(DateOnly recordedOn, int years) => recordedOn.AddYears(years);
}
