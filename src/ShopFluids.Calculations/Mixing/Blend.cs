using System.Runtime.InteropServices;
using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Mixing;

/// <summary>A liquid that goes into a blend. The default value is nothing of water.</summary>
/// <param name="Litres">V, 0 to 1 000 000 L.</param>
/// <param name="Percent">c, 0 to 100 % v/v.</param>
/// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
[StructLayout(LayoutKind.Auto)]
public readonly record struct BlendPart(Estimate Litres, Estimate Percent)
{
    /// <summary>V, L.</summary>
    public Estimate Litres { get; } = new(Require.Between(Litres.Value, 0, 1_000_000, "L", nameof(Litres)), Litres.ExpandedUncertainty);

    /// <summary>c, % v/v.</summary>
    public Estimate Percent { get; } = new(Require.Between(Percent.Value, 0, 100, "% v/v", nameof(Percent)), Percent.ExpandedUncertainty);
}

/// <summary>
/// What several liquids give together: V = Σ Vᵢ, c = Σ cᵢ Vᵢ / V. Mass balance with additive volumes. Uncertainties by first-order propagation
/// (JCGM 100) for independent amounts and concentrations: u(V)² = Σ u(Vᵢ)², u(c)² = Σ (Vᵢ/V)² u(cᵢ)² + Σ ((cᵢ − c)/V)² u(Vᵢ)².
/// </summary>
/// <param name="Litres">V, L.</param>
/// <param name="Percent">c, % v/v: never below the weakest liquid, never above the strongest.</param>
public sealed record Blend(Estimate Litres, Estimate Percent)
{
    /// <summary>More liquids would not be poured together by hand.</summary>
    public const int MostParts = 50;

    /// <summary>Works out the blend.</summary>
    /// <param name="parts">1 to 50 liquids, more than 0 L together.</param>
    /// <exception cref="ArgumentOutOfRangeException">Too few or too many liquids, or there is nothing of any of them.</exception>
    public static Blend Of(IReadOnlyList<BlendPart> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        Require.Between(parts.Count, 1, MostParts, "liquids", nameof(parts));
        var (litres, product) = (0.0, 0.0);
        foreach (var part in parts)
        {
            litres += part.Litres.Value;
            product += part.Litres.Value * part.Percent.Value;
        }

        Require.Positive(litres, MostParts * 1_000_000.0, "L together", nameof(parts));
        var percent = Math.Clamp(product / litres, parts.Min(p => p.Percent.Value), parts.Max(p => p.Percent.Value));
        return new(
            Gum.Propagate(litres, [.. parts.Select(p => (1.0, p.Litres.StandardUncertainty))]),
            Gum.Propagate(percent, [.. parts.SelectMany(p => new[] { (p.Litres.Value / litres, p.Percent.StandardUncertainty), ((p.Percent.Value - percent) / litres, p.Litres.StandardUncertainty) })]));
    }
}
