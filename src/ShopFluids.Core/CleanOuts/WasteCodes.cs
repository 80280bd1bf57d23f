using ShopFluids.Core.Fluids;

namespace ShopFluids.Core.CleanOuts;

/// <summary>
/// Codes of the European List of Waste (Decision 2000/532/EC as amended) that a clean-out meets, chapters 12 01, 13 05 and 15; the star marks
/// hazardous waste. Proposals only: which code a waste has, the safety data sheet and the carrier say, and any other may be typed.
/// </summary>
public static class WasteCodes
{
    public const int MaximumLength = 20;
    public const string OilHalogens = "12 01 06*";
    public const string Oil = "12 01 07*";
    public const string EmulsionHalogens = "12 01 08*";
    public const string Emulsion = "12 01 09*";
    public const string SyntheticOil = "12 01 10*";
    public const string Sludge = "12 01 14*";
    public const string OtherSludge = "12 01 15";
    public const string GrindingSludge = "12 01 18*";
    public const string BiodegradableOil = "12 01 19*";
    public const string SeparatedOil = "13 05 06*";
    public const string OilyWater = "13 05 07*";
    public const string Packaging = "15 01 10*";
    public const string Cloths = "15 02 02*";

    public static IReadOnlyList<string> All { get; } =
        [OilHalogens, Oil, EmulsionHalogens, Emulsion, SyntheticOil, Sludge, OtherSludge, GrindingSludge, BiodegradableOil, SeparatedOil, OilyWater, Packaging, Cloths];

    /// <summary>The code of the spent fluid: that of its sheet, else the usual one of its kind without halogens.</summary>
    public static string OfFluid(Fluid fluid)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        return !string.IsNullOrWhiteSpace(fluid.WasteCode) ? fluid.WasteCode.Trim()
            : fluid.Kind == FluidKind.StraightOil ? Oil
            : Emulsion;
    }

    /// <summary>What stands ready in the rows of a step.</summary>
    public static IReadOnlyList<string> ProposedFor(CleanOutStepKind kind, string ofFluid) => kind switch
    {
        CleanOutStepKind.Drain => [ofFluid, SeparatedOil],
        CleanOutStepKind.Wipe => [Sludge, Cloths],
        CleanOutStepKind.Rinse => [ofFluid],
        _ => [],
    };
}
