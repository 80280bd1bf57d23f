namespace ShopFluids.Calculations.Uncertainties;

/// <summary>
/// First-order propagation of uncertainty for independent inputs, after JCGM 100:2008 (GUM), sections 4.3.7 and 5.1.2
/// (section numbers from memory).
/// </summary>
public static class Gum
{
    /// <summary>k = 2: the expanded uncertainty covers about 95 % where the result is near normal.</summary>
    public const double CoverageFactor = 2;

    /// <summary>Standard uncertainty of a reading rounded to a step: uniform over the step, u = step / √12.</summary>
    /// <param name="resolution">The step of the scale, in the unit of the reading; finite, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="resolution"/> is below 0 or not finite.</exception>
    public static double FromResolution(double resolution) => Require.FiniteNotNegative(resolution) / Math.Sqrt(12);

    /// <summary>Standard uncertainty of a maker's "± a" without a stated distribution: uniform, u = a / √3.</summary>
    /// <param name="halfWidth">a, in the unit of the reading; finite, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="halfWidth"/> is below 0 or not finite.</exception>
    public static double FromAccuracy(double halfWidth) => Require.FiniteNotNegative(halfWidth) / Math.Sqrt(3);

    /// <summary>Root of the sum of squares of independent standard uncertainties that act on the same quantity.</summary>
    /// <param name="standardUncertainties">In one unit; each finite, 0 or more. None gives 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">One of them is below 0 or not finite.</exception>
    public static double Combine(params ReadOnlySpan<double> standardUncertainties)
    {
        var squares = 0.0;
        foreach (var standardUncertainty in standardUncertainties)
        {
            var u = Require.FiniteNotNegative(standardUncertainty);
            squares += u * u;
        }

        return Require.Finite(Math.Sqrt(squares), nameof(standardUncertainties));
    }

    /// <summary>Combined standard uncertainty u = √ Σ (sᵢ uᵢ)² of a result of independent inputs.</summary>
    /// <param name="inputs">For each input its sensitivity s = ∂result/∂input and its standard uncertainty u (0 or more).</param>
    /// <exception cref="ArgumentOutOfRangeException">A sensitivity is not finite, or an uncertainty is below 0 or not finite.</exception>
    public static double FirstOrder(params ReadOnlySpan<(double Sensitivity, double StandardUncertainty)> inputs)
    {
        var squares = 0.0;
        foreach (var (sensitivity, standardUncertainty) in inputs)
        {
            var part = Require.Finite(sensitivity) * Require.FiniteNotNegative(standardUncertainty);
            squares += part * part;
        }

        return Require.Finite(Math.Sqrt(squares), nameof(inputs));
    }

    /// <summary>The result with U = 2 u, u by <see cref="FirstOrder"/>.</summary>
    /// <param name="value">The result; finite.</param>
    /// <param name="inputs">As for <see cref="FirstOrder"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">As for <see cref="FirstOrder"/>, or the value is not finite.</exception>
    public static Estimate Propagate(double value, params ReadOnlySpan<(double Sensitivity, double StandardUncertainty)> inputs) =>
        new(value, CoverageFactor * FirstOrder(inputs));
}
