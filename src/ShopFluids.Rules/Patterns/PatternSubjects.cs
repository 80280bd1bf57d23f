namespace ShopFluids.Rules.Patterns;

/// <summary>What the pattern table speaks of besides the parameters.</summary>
public static class PatternSubjects
{
    /// <summary>Concentration by titration, % v/v.</summary>
    public const string Titration = "titration";

    /// <summary>Refractometer minus titration of one reading, % v/v.</summary>
    public const string MethodGap = "method-gap";

    /// <summary>Days since the fill.</summary>
    public const string ChargeAge = "charge-age";

    /// <summary>Strength of what was put in lately, in % of the target concentration.</summary>
    public const string AddedShare = "added-share";

    /// <summary>Hardness of the make-up water, mg/L as CaCO3.</summary>
    public const string WaterHardness = "water-hardness";

    /// <summary>Nitrate in the make-up water, mg/L.</summary>
    public const string WaterNitrate = "water-nitrate";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<string> All { get; } = [Titration, MethodGap, ChargeAge, AddedShare, WaterHardness, WaterNitrate];

    /// <summary>Whether somebody can find it out today; the age is known, and what was put in is past.</summary>
    /// <param name="subject">A subject's code.</param>
    public static bool CanBeFoundOut(string subject) => subject is not (ChargeAge or AddedShare);
}
