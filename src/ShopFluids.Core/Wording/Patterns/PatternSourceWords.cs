namespace ShopFluids.Core.Wording.Patterns;

/// <summary>Where a row of the pattern table comes from, by its code in the pattern table.</summary>
public static class PatternSourceWords
{
    /// <summary>Its words.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no such code.</exception>
    public static string Of(string code) => code switch
    {
        "memory" => Texts.Pattern_SourceMemory,
        "practice" => Texts.Pattern_SourcePractice,
        "dguv-annex-3" => Texts.Pattern_SourceDguvAnnex3,
        "dguv-7-1-1" => Texts.Pattern_SourceDguv711,
        "oshwiki" => Texts.Pattern_SourceOshwiki,
        "hse-bacteria" => Texts.Pattern_SourceHseBacteria,
        "hse-bulletin" => Texts.Pattern_SourceHseBulletin,
        "trgs-611" => Texts.Pattern_SourceTrgs611,
        "niosh-98-102" => Texts.Pattern_SourceNiosh98102,
        "dguv-209-090" => Texts.Pattern_SourceDguv209090,
        "doe-1081" => Texts.Pattern_SourceDoe1081,
        _ => throw new ArgumentOutOfRangeException(nameof(code), code, "The pattern table has no words for this."),
    };
}
