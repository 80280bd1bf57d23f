using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Limits;

namespace ShopFluids.Core.Readings;

/// <summary>From what is stated of an instrument to an expanded uncertainty (k = 2), by JCGM 100: a half width of a is u = a / √3.</summary>
internal static class StatedUncertainty
{
    /// <summary>How near a titre is read and its end point seen, as a half width, mL: a usual burette's step. Common practice, no source.</summary>
    public const decimal TitreHalfWidthMillilitres = 0.1m;

    /// <summary>Of a value read off directly: by the instrument's step and accuracy, else by what the parameter says of itself.</summary>
    public static decimal Of(Parameter parameter, Instrument? instrument) => Expanded(instrument is null
        ? Gum.FromAccuracy((double)parameter.Accuracy)
        : Gum.Combine(Gum.FromResolution((double)instrument.Resolution), Gum.FromAccuracy((double)instrument.Accuracy)));

    /// <summary>Of a concentration by titration, % v/v: the titre's, times the factor.</summary>
    public static decimal OfTitration(decimal factor) => Expanded((double)factor * Gum.FromAccuracy((double)TitreHalfWidthMillilitres));

    private static decimal Expanded(double standard) => (decimal)(Gum.CoverageFactor * standard);
}
