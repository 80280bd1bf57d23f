namespace ShopFluids.Core.Wording.Patterns;

/// <summary>What is seen or measured, by its code in the pattern table.</summary>
public static class PatternSymptomWords
{
    /// <summary>Its words.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no such code.</exception>
    public static string Of(string code) => code switch
    {
        "low-ph" => Texts.Pattern_SymptomLowPh,
        "high-ph" => Texts.Pattern_SymptomHighPh,
        "low-concentration" => Texts.Pattern_SymptomLowConcentration,
        "high-concentration" => Texts.Pattern_SymptomHighConcentration,
        "methods-apart" => Texts.Pattern_SymptomMethodsApart,
        "foam" => Texts.Pattern_SymptomFoam,
        "sour" => Texts.Pattern_SymptomSour,
        "rotten-egg" => Texts.Pattern_SymptomRottenEgg,
        "clean-slide-smell" => Texts.Pattern_SymptomCleanSlideSmell,
        "tramp-oil" => Texts.Pattern_SymptomTrampOil,
        "fines" => Texts.Pattern_SymptomFines,
        "hot" => Texts.Pattern_SymptomHot,
        "nitrite" => Texts.Pattern_SymptomNitrite,
        "readings-jump" => Texts.Pattern_SymptomReadingsJump,
        "ammonia" => Texts.Pattern_SymptomAmmonia,
        "slime" => Texts.Pattern_SymptomSlime,
        "splits" => Texts.Pattern_SymptomSplits,
        "splits-at-once" => Texts.Pattern_SymptomSplitsAtOnce,
        "rust" => Texts.Pattern_SymptomRust,
        "aluminium-stains" => Texts.Pattern_SymptomAluminiumStains,
        "copper-stains" => Texts.Pattern_SymptomCopperStains,
        "residue" => Texts.Pattern_SymptomResidue,
        "skin" => Texts.Pattern_SymptomSkin,
        "breathing" => Texts.Pattern_SymptomBreathing,
        "mist" => Texts.Pattern_SymptomMist,
        "tool-life" => Texts.Pattern_SymptomToolLife,
        "filter-plugs" => Texts.Pattern_SymptomFilterPlugs,
        "magnesium-gas" => Texts.Pattern_SymptomMagnesiumGas,
        "ph-meter-drifts" => Texts.Pattern_SymptomPhMeterDrifts,
        _ => throw new ArgumentOutOfRangeException(nameof(code), code, "The pattern table has no words for this."),
    };
}
