namespace ShopFluids.Core.Wording.Patterns;

/// <summary>What to beware of, by its code in the pattern table.</summary>
public static class PatternCautionWords
{
    /// <summary>Its words.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no such code.</exception>
    public static string Of(string code) => code switch
    {
        "additive-hides" => Texts.Pattern_CautionAdditiveHides,
        "gloves" => Texts.Pattern_CautionGloves,
        "not-neat-on-still" => Texts.Pattern_CautionNotNeatOnStill,
        "acid-and-nitrite" => Texts.Pattern_CautionAcidAndNitrite,
        "skin-risk" => Texts.Pattern_CautionSkinRisk,
        "attacks-metals" => Texts.Pattern_CautionAttacksMetals,
        "reads-falsely-high" => Texts.Pattern_CautionReadsFalselyHigh,
        "foam-residue-skin" => Texts.Pattern_CautionFoamResidueSkin,
        "not-by-refractometer" => Texts.Pattern_CautionNotByRefractometer,
        "antifoam-spots" => Texts.Pattern_CautionAntifoamSpots,
        "cavitation" => Texts.Pattern_CautionCavitation,
        "hydrogen-sulphide" => Texts.Pattern_CautionHydrogenSulphide,
        "ph-no-substitute" => Texts.Pattern_CautionPhNoSubstitute,
        "oil-starves" => Texts.Pattern_CautionOilStarves,
        "sludge-shelters" => Texts.Pattern_CautionSludgeShelters,
        "heat-speeds-up" => Texts.Pattern_CautionHeatSpeedsUp,
        "nitrosamines" => Texts.Pattern_CautionNitrosamines,
        "ventilate" => Texts.Pattern_CautionVentilate,
        "dead-growth" => Texts.Pattern_CautionDeadGrowth,
        "oil-into-water" => Texts.Pattern_CautionOilIntoWater,
        "copper-stays" => Texts.Pattern_CautionCopperStays,
        "occupational-health" => Texts.Pattern_CautionOccupationalHealth,
        "killing-releases" => Texts.Pattern_CautionKillingReleases,
        "mist-limits" => Texts.Pattern_CautionMistLimits,
        "hydrogen" => Texts.Pattern_CautionHydrogen,
        _ => throw new ArgumentOutOfRangeException(nameof(code), code, "The pattern table has no words for this."),
    };
}
