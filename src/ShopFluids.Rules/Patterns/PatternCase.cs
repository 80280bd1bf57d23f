using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Patterns;

/// <summary>What may be looked at when causes are sought.</summary>
/// <param name="Sump">The sump.</param>
/// <param name="TargetPercent">The concentration that its fluid aims at, % v/v.</param>
/// <param name="Limits">The limits in force.</param>
/// <param name="FirstFillPh">The pH from which a fall is reckoned; null before it.</param>
/// <param name="FilledAt">When the charge was filled, UTC.</param>
/// <param name="History">The readings of the charge, oldest first, the one from which causes are sought being the last; and its movements, oldest first.</param>
/// <param name="OpenRules">Codes of the rules that have a flag open.</param>
/// <param name="Water">The make-up water.</param>
/// <param name="Seen">Symptoms that a person has seen, by code.</param>
public sealed record PatternCase(
    SumpFacts Sump,
    double TargetPercent,
    IReadOnlyList<ParameterLimits> Limits,
    decimal? FirstFillPh,
    DateTime FilledAt,
    ChargeHistory History,
    IReadOnlyCollection<string> OpenRules,
    WaterFacts Water,
    IReadOnlyCollection<string> Seen);

/// <summary>What the make-up water carries in; null where it is not known.</summary>
/// <param name="HardnessMgPerLitre">mg/L as CaCO3.</param>
/// <param name="NitrateMgPerLitre">mg/L.</param>
public sealed record WaterFacts(decimal? HardnessMgPerLitre, decimal? NitrateMgPerLitre);
