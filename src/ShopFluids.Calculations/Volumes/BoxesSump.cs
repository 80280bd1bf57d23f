using System.Collections.ObjectModel;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace ShopFluids.Calculations.Volumes;

/// <summary>One upright box of a sump that is made of several.</summary>
/// <param name="LengthMm">Inside length, above 0 up to 100 000 mm.</param>
/// <param name="WidthMm">Inside width, above 0 up to 100 000 mm.</param>
/// <param name="BottomMm">Height of this box's bottom above the zero mark, 0 up to below the brim, mm.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct SumpBox(double LengthMm, double WidthMm, double BottomMm);

/// <summary>
/// An L-shaped or stepped sump as the sum of boxes side by side that share one liquid level: V(h) = Σ Lᵢ Wᵢ max(0, h − bᵢ) / 10⁶. Two are
/// equal when their boxes and brims are. Source: geometry.
/// </summary>
/// <param name="Boxes">One to 50; at least one with its bottom at 0; none reaching into another.</param>
/// <param name="BrimMm">Height of the common brim above the zero mark, above 0 up to 20 000 mm.</param>
/// <exception cref="ArgumentOutOfRangeException">A dimension is out of its range, or no box starts at 0.</exception>
public sealed record BoxesSump(IReadOnlyList<SumpBox> Boxes, double BrimMm) : SumpGeometry
{
    private const int MostBoxes = 50;
    private const double CubicMillimetresPerLitre = 1_000_000;

    /// <summary>The boxes, lowest bottom first. A copy: later changes to the list handed in do not reach it.</summary>
    public IReadOnlyList<SumpBox> Boxes { get; } = Checked(Boxes, Require.Positive(BrimMm, 20_000, "mm"));

    /// <summary>Height of the common brim, mm.</summary>
    public override double BrimMm { get; } = BrimMm;

    /// <summary>Volume at the brim, L.</summary>
    public override double BrimLitres => Volume(BrimMm);

    /// <summary>Always 0 L.</summary>
    public override double BottomLitres => 0;

    /// <summary>Whether the other sump has the same boxes and brim.</summary>
    /// <param name="other">Another sump, or null.</param>
    public bool Equals(BoxesSump? other) => other is not null && BrimMm.Equals(other.BrimMm) && Boxes.SequenceEqual(other.Boxes);

    /// <summary>A hash over all boxes, in step with <see cref="Equals(BoxesSump?)"/>.</summary>
    public override int GetHashCode()
    {
        var hash = new HashCode();
        hash.Add(BrimMm);
        foreach (var box in Boxes)
        {
            hash.Add(box);
        }

        return hash.ToHashCode();
    }

    /// <inheritdoc/>
    protected override double Volume(double levelMm) =>
        Boxes.Sum(box => box.LengthMm * box.WidthMm * Math.Max(0, levelMm - box.BottomMm)) / CubicMillimetresPerLitre;

    /// <summary>Within one step the volume is a straight line, so the level follows without search.</summary>
    /// <param name="volumeLitres">V, L.</param>
    protected override double Level(double volumeLitres)
    {
        var step = Boxes.Select(box => box.BottomMm).Last(bottom => Volume(bottom) <= volumeLitres);
        return step + ((volumeLitres - Volume(step)) / Surface(step));
    }

    /// <summary>The area wetted at the level; on a step the larger one, so that no uncertainty comes out too small.</summary>
    /// <param name="levelMm">h, mm.</param>
    protected override double Surface(double levelMm) =>
        Boxes.Where(box => box.BottomMm <= levelMm).Sum(box => box.LengthMm * box.WidthMm) / CubicMillimetresPerLitre;

    private static ReadOnlyCollection<SumpBox> Checked(
        IReadOnlyList<SumpBox> boxes,
        double brimMm,
        [CallerArgumentExpression(nameof(boxes))] string name = "")
    {
        if (boxes is null || boxes.Count is 0 or > MostBoxes)
        {
            throw new ArgumentOutOfRangeException(name, boxes?.Count, "Accepted are 1 to 50 boxes.");
        }

        foreach (var box in boxes)
        {
            Require.Positive(box.LengthMm, 100_000, "mm", name);
            Require.Positive(box.WidthMm, 100_000, "mm", name);
            Require.Between(box.BottomMm, 0, Math.BitDecrement(brimMm), "mm (below the brim)", name);
        }

        return boxes.Any(box => box.BottomMm == 0)
            ? Array.AsReadOnly(boxes.OrderBy(box => box.BottomMm).ToArray())
            : throw new ArgumentOutOfRangeException(name, boxes.Min(box => box.BottomMm), "Accepted are boxes of which one at least starts at 0 mm.");
    }
}
