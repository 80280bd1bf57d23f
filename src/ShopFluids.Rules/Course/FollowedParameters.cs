namespace ShopFluids.Rules.Course;

/// <summary>
/// The parameters whose course over time says something: numbers that a healthy charge changes little by little. Not the level and
/// the temperature, which change from hour to hour; not words; not slides, which are read in powers of ten.
/// </summary>
public static class FollowedParameters
{
    /// <summary>Their codes.</summary>
    public static IReadOnlyList<string> Codes { get; } =
    [
        ParameterCodes.Concentration,
        ParameterCodes.Ph,
        ParameterCodes.Nitrite,
        ParameterCodes.Nitrate,
        ParameterCodes.Hardness,
        ParameterCodes.Conductivity,
        ParameterCodes.Chloride,
    ];
}
