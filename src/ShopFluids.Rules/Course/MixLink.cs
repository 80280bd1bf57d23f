using System.Runtime.InteropServices;

namespace ShopFluids.Rules.Course;

/// <summary>
/// What is known to have happened to the mix between two readings. A concentration c becomes offset + factor × c by what was put in and
/// taken out; where fluid went missing as well, it was mix (which leaves the concentration as it is) or water (which raises it), or some
/// of both. The default value knows nothing.
/// </summary>
/// <param name="IsKnown">Whether nothing was moved, or the volume in which it was mixed is known.</param>
/// <param name="Offset">The offset when what is missing was mix, % v/v.</param>
/// <param name="Factor">The factor likewise; above 0.</param>
/// <param name="Thickening">By what both are multiplied when what is missing was water; 1 or more.</param>
/// <param name="Exchanged">Litres put in, or taken out where that is more, for each litre of the sump.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct MixLink(bool IsKnown, double Offset, double Factor, double Thickening, double Exchanged)
{
    /// <summary>What a concentration becomes when what is missing was mix, % v/v.</summary>
    public double Least(double percent) => Math.Clamp(Offset + (Factor * percent), 0, 100);

    /// <summary>What it becomes when what is missing was water, % v/v.</summary>
    public double Most(double percent) => Math.Clamp((Offset + (Factor * percent)) * Thickening, 0, 100);
}
