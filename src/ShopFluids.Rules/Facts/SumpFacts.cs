using ShopFluids.Calculations.Volumes;

namespace ShopFluids.Rules.Facts;

/// <summary>What the rules need to know of a sump.</summary>
/// <param name="Tag">The tag on the label, such as S-07.</param>
/// <param name="Geometry">Level to volume.</param>
/// <param name="FullMarkMm">The level to which the sump is topped up, mm above the floor; at most the brim.</param>
/// <param name="PumpIntakeMm">The level under which the pump draws air, mm above the floor.</param>
public sealed record SumpFacts(string Tag, SumpGeometry Geometry, double FullMarkMm, double PumpIntakeMm);

/// <summary>What the rules need to know of the fluid in the sump.</summary>
/// <param name="TargetPercent">The concentration that a recipe aims at, % v/v.</param>
/// <param name="PremixMinimumPercent">The weakest premix that may be poured, % v/v.</param>
/// <param name="PremixMaximumPercent">The strongest premix that may be poured, % v/v.</param>
/// <param name="MeasurableLitres">The smallest amount that the shop measures out, L.</param>
public sealed record FluidFacts(double TargetPercent, double PremixMinimumPercent, double PremixMaximumPercent, double MeasurableLitres);
