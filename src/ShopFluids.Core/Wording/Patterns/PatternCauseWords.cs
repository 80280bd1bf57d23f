namespace ShopFluids.Core.Wording.Patterns;

/// <summary>What may be behind it, by its code in the pattern table.</summary>
public static class PatternCauseWords
{
    /// <summary>Its words.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no such code.</exception>
    public static string Of(string code) => code switch
    {
        "bacteria" => Texts.Pattern_CauseBacteria,
        "dilution" => Texts.Pattern_CauseDilution,
        "acid-carried-in" => Texts.Pattern_CauseAcidCarriedIn,
        "evaporation" => Texts.Pattern_CauseEvaporation,
        "alkaline-carried-in" => Texts.Pattern_CauseAlkalineCarriedIn,
        "overdosed" => Texts.Pattern_CauseOverdosed,
        "water-gained" => Texts.Pattern_CauseWaterGained,
        "weak-top-up" => Texts.Pattern_CauseWeakTopUp,
        "selective-loss" => Texts.Pattern_CauseSelectiveLoss,
        "carried-off-or-splitting" => Texts.Pattern_CauseCarriedOffOrSplitting,
        "strong-top-up" => Texts.Pattern_CauseStrongTopUp,
        "oil-or-salts-in-reading" => Texts.Pattern_CauseOilOrSaltsInReading,
        "soft-water" => Texts.Pattern_CauseSoftWater,
        "new-charge" => Texts.Pattern_CauseNewCharge,
        "over-strength" => Texts.Pattern_CauseOverStrength,
        "air-drawn-in" => Texts.Pattern_CauseAirDrawnIn,
        "cleaner-left" => Texts.Pattern_CauseCleanerLeft,
        "early-growth" => Texts.Pattern_CauseEarlyGrowth,
        "anaerobic" => Texts.Pattern_CauseAnaerobic,
        "slide-misses-it" => Texts.Pattern_CauseSlideMissesIt,
        "oil-leak" => Texts.Pattern_CauseOilLeak,
        "filter-bypass" => Texts.Pattern_CauseFilterBypass,
        "heat-held" => Texts.Pattern_CauseHeatHeld,
        "nitrate-reduced" => Texts.Pattern_CauseNitrateReduced,
        "nitrite-carried-in" => Texts.Pattern_CauseNitriteCarriedIn,
        "sampling" => Texts.Pattern_CauseSampling,
        "ammonia-carried-in" => Texts.Pattern_CauseAmmoniaCarriedIn,
        "fungi" => Texts.Pattern_CauseFungi,
        "hard-water" => Texts.Pattern_CauseHardWater,
        "mixed-wrongly" => Texts.Pattern_CauseMixedWrongly,
        "too-lean" => Texts.Pattern_CauseTooLean,
        "salts" => Texts.Pattern_CauseSalts,
        "too-alkaline" => Texts.Pattern_CauseTooAlkaline,
        "copper-attacked" => Texts.Pattern_CauseCopperAttacked,
        "hard-soaps" => Texts.Pattern_CauseHardSoaps,
        "strong-or-alkaline" => Texts.Pattern_CauseStrongOrAlkaline,
        "biocide-sensitises" => Texts.Pattern_CauseBiocideSensitises,
        "bacteria-in-mist" => Texts.Pattern_CauseBacteriaInMist,
        "extraction-fault" => Texts.Pattern_CauseExtractionFault,
        "dirty" => Texts.Pattern_CauseDirty,
        "magnesium-reacts" => Texts.Pattern_CauseMagnesiumReacts,
        "electrode-fouled" => Texts.Pattern_CauseElectrodeFouled,
        _ => throw new ArgumentOutOfRangeException(nameof(code), code, "The pattern table has no words for this."),
    };
}
