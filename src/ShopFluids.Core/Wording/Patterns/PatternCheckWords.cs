namespace ShopFluids.Core.Wording.Patterns;

/// <summary>What to look at, by its code in the pattern table.</summary>
public static class PatternCheckWords
{
    /// <summary>Its words.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no such code.</exception>
    public static string Of(string code) => code switch
    {
        "washing" => Texts.Pattern_CheckWashing,
        "doses" => Texts.Pattern_CheckDoses,
        "cooler-leak" => Texts.Pattern_CheckCoolerLeak,
        "mixer-output" => Texts.Pattern_CheckMixerOutput,
        "oil-on-top" => Texts.Pattern_CheckOilOnTop,
        "suction" => Texts.Pattern_CheckSuction,
        "nozzles" => Texts.Pattern_CheckNozzles,
        "fluid-black" => Texts.Pattern_CheckFluidBlack,
        "way-oil-use" => Texts.Pattern_CheckWayOilUse,
        "filter" => Texts.Pattern_CheckFilter,
        "salts-and-inhibitors" => Texts.Pattern_CheckSaltsAndInhibitors,
        "two-people" => Texts.Pattern_CheckTwoPeople,
        "dead-legs" => Texts.Pattern_CheckDeadLegs,
        "lot-and-date" => Texts.Pattern_CheckLotAndDate,
        "fluid-for-metal" => Texts.Pattern_CheckFluidForMetal,
        "safety-sheet" => Texts.Pattern_CheckSafetySheet,
        "killed-lately" => Texts.Pattern_CheckKilledLately,
        "enclosure" => Texts.Pattern_CheckEnclosure,
        "what-plugs" => Texts.Pattern_CheckWhatPlugs,
        "slope-and-offset" => Texts.Pattern_CheckSlopeAndOffset,
        _ => throw new ArgumentOutOfRangeException(nameof(code), code, "The pattern table has no words for this."),
    };
}
