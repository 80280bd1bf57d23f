using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Concentrations;

/// <summary>
/// Acid split: strong acid breaks the emulsion of a measured sample, the oil layer that rises is read. Method named in the ORC guide
/// "Management of the Metal Removal Fluid Environment" (1999), details from memory; the algebra is a definition. Not for synthetics, which
/// hold no oil; tramp oil in the sample is read as coolant. The acid burns: see the cautions in docs/calculations/concentration.md.
/// </summary>
public static class AcidSplit
{
    private const double SmallestSample = 0.1;
    private const double LargestSample = 10_000;

    /// <summary>s = 100 l / S: the oil layer as a share of the sample, % v/v.</summary>
    /// <param name="layerMillilitres">l, oil layer, 0 up to the sample, mL.</param>
    /// <param name="sampleMillilitres">S, sample taken, 0.1 to 10 000 mL.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double LayerPercent(double layerMillilitres, double sampleMillilitres)
    {
        Require.Between(sampleMillilitres, SmallestSample, LargestSample, "mL");
        return 100 * Require.Between(layerMillilitres, 0, sampleMillilitres, "mL (the sample)") / sampleMillilitres;
    }

    /// <summary>c = f s ± U, % v/v, with U from the steps in which layer and sample are read (JCGM 100, first order, k = 2).</summary>
    /// <param name="layerMillilitres">l, 0 up to the sample, mL.</param>
    /// <param name="sampleMillilitres">S, 0.1 to 10 000 mL.</param>
    /// <param name="splitFactor">f, the product's concentration per percent of layer, above 0 up to 100.</param>
    /// <param name="layerResolutionMillilitres">Step of the layer's scale, 0 up to the sample, mL.</param>
    /// <param name="sampleResolutionMillilitres">Step of the sample's measure, 0 up to the sample, mL.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range, or the result would pass 100 %.</exception>
    public static Estimate Percent(
        double layerMillilitres,
        double sampleMillilitres,
        double splitFactor,
        double layerResolutionMillilitres,
        double sampleResolutionMillilitres)
    {
        var percent = Require.Positive(splitFactor, 100, "% v/v per percent of layer") * LayerPercent(layerMillilitres, sampleMillilitres);
        Require.Between(layerResolutionMillilitres, 0, sampleMillilitres, "mL (the sample)");
        Require.Between(sampleResolutionMillilitres, 0, sampleMillilitres, "mL (the sample)");
        return percent <= 100
            ? Gum.Propagate(
                percent,
                (100 * splitFactor / sampleMillilitres, Gum.FromResolution(layerResolutionMillilitres)),
                (percent / sampleMillilitres, Gum.FromResolution(sampleResolutionMillilitres)))
            : throw new ArgumentOutOfRangeException(nameof(layerMillilitres), layerMillilitres, "Accepted is a layer that gives at most 100 % v/v.");
    }

    /// <summary>
    /// t = s − c o / 100 ± U, % v/v: the part of the layer that is tramp oil, c measured in a way that tramp oil does not disturb
    /// (titration). Below 0 by more than U it says that c, o or the layer is wrong: it is not cut off at 0.
    /// </summary>
    /// <param name="layerPercent">s with its uncertainty, 0 to 100 % v/v.</param>
    /// <param name="concentrationPercent">c with its uncertainty, 0 to 100 % v/v.</param>
    /// <param name="oilContentPercent">o, oil in the concentrate, 0 to 100 % v/v.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static Estimate TrampOilPercent(Estimate layerPercent, Estimate concentrationPercent, double oilContentPercent)
    {
        Require.Between(layerPercent.Value, 0, 100, "% v/v", nameof(layerPercent));
        Require.Between(concentrationPercent.Value, 0, 100, "% v/v", nameof(concentrationPercent));
        var oil = Require.Between(oilContentPercent, 0, 100, "% v/v") / 100;
        return Gum.Propagate(
            layerPercent.Value - (concentrationPercent.Value * oil),
            (1, layerPercent.StandardUncertainty),
            (oil, concentrationPercent.StandardUncertainty));
    }
}
