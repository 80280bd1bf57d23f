using System.Runtime.InteropServices;

namespace ShopFluids.Calculations.Uncertainties;

/// <summary>
/// A worked-out quantity with its expanded uncertainty for a coverage factor of 2, in the unit of the quantity: value ± U.
/// The default value is 0 ± 0.
/// </summary>
/// <param name="Value">The best estimate; any finite number.</param>
/// <param name="ExpandedUncertainty">U = 2 u, in the unit of <paramref name="Value"/>; finite, 0 or more.</param>
/// <exception cref="ArgumentOutOfRangeException">A number is not finite, or the uncertainty is below 0.</exception>
[StructLayout(LayoutKind.Auto)]
public readonly record struct Estimate(double Value, double ExpandedUncertainty)
{
    /// <summary>The best estimate; any finite number.</summary>
    public double Value { get; } = Require.Finite(Value);

    /// <summary>U = 2 u, in the unit of <see cref="Value"/>; 0 or more.</summary>
    public double ExpandedUncertainty { get; } = Require.FiniteNotNegative(ExpandedUncertainty);

    /// <summary>The standard uncertainty u = U / 2.</summary>
    public double StandardUncertainty => ExpandedUncertainty / Gum.CoverageFactor;

    /// <summary>A value taken as exact: U = 0.</summary>
    /// <param name="value">Any finite number.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="value"/> is not finite.</exception>
    public static Estimate Exact(double value) => new(value, 0);
}
