using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Concentrations;

/// <summary>What two methods on one sample, or two such comparisons in one charge, say about each other.</summary>
public enum MethodFinding
{
    /// <summary>No difference beyond the uncertainty.</summary>
    None = 0,

    /// <summary>The refractometer reads higher, or its lead has grown: tramp oil or dissolved contamination is read as coolant.</summary>
    RefractometerHigh = 1,

    /// <summary>The titration reads higher, or its lead has grown: alkalinity has built up, or was added.</summary>
    TitrationHigh = 2,
}

/// <summary>A refractometer and a titration result on the same sample.</summary>
/// <param name="Ratio">Refractometer over titration, with its uncertainty.</param>
/// <param name="Finding">Whether the ratio differs from 1 by more than its uncertainty.</param>
public sealed record MethodComparison(Estimate Ratio, MethodFinding Finding);

/// <summary>
/// Refractometer against titration on the same sample. Tramp oil, changed droplets and temperature disturb the refractometer; titration is
/// independent of tramp oil but not of added acid, alkali or biocide; where they differ strongly, a laboratory method decides
/// (DGUV Regel 109-003, 7.1.1, read). The arithmetic is first-order propagation (JCGM 100).
/// </summary>
public static class MethodDisagreement
{
    // Below this the relative uncertainty of a titration says nothing any more.
    private const double LeastPercent = 0.01;

    /// <summary>q = r / t ± U with u² = (u_r / t)² + (r u_t / t²)².</summary>
    /// <param name="refractometerPercent">r, 0 to 100 % v/v.</param>
    /// <param name="titrationPercent">t, 0.01 to 100 % v/v.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static MethodComparison Compare(Estimate refractometerPercent, Estimate titrationPercent)
    {
        var r = Require.Between(refractometerPercent.Value, 0, 100, "% v/v", nameof(refractometerPercent));
        var t = Require.Between(titrationPercent.Value, LeastPercent, 100, "% v/v", nameof(titrationPercent));
        var ratio = Gum.Propagate(
            r / t,
            (1 / t, refractometerPercent.StandardUncertainty),
            (r / (t * t), titrationPercent.StandardUncertainty));
        return new(ratio, Judge(ratio.Value - 1, ratio.ExpandedUncertainty));
    }

    /// <summary>
    /// Whether the ratio has drifted over a charge: d = q_now − q_then ± √(U_now² + U_then²). Drift upwards says that tramp oil or dissolved
    /// contamination is being read as coolant, whatever the ratio was when the charge was new.
    /// </summary>
    /// <param name="earlier">The ratio then, finite.</param>
    /// <param name="latest">The ratio now, finite.</param>
    /// <exception cref="ArgumentOutOfRangeException">The difference is too large for a number.</exception>
    public static (Estimate Change, MethodFinding Finding) Drift(Estimate earlier, Estimate latest)
    {
        var change = Gum.Propagate(latest.Value - earlier.Value, (1, latest.StandardUncertainty), (1, earlier.StandardUncertainty));
        return (change, Judge(change.Value, change.ExpandedUncertainty));
    }

    private static MethodFinding Judge(double difference, double uncertainty) =>
        difference > uncertainty ? MethodFinding.RefractometerHigh
        : difference < -uncertainty ? MethodFinding.TitrationHigh
        : MethodFinding.None;
}
