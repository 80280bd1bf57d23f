namespace ShopFluids.Core.CleanOuts;

/// <summary>
/// What total halogens in spent fluid mean in the United States: from 1,000 ppm on it is presumed to be mixed with halogenated hazardous waste, until it
/// is shown not to be. 40 CFR 279.10(b)(1)(ii); the limit as read in 279.53, "greater than or equal to", where some guides say "more than".
/// </summary>
public static class HalogenPresumption
{
    public const decimal FromMgPerKg = 1000;

    /// <summary>All of it: a larger number is a slip of the finger.</summary>
    public const decimal MostMgPerKg = 1_000_000;

    public static bool Holds(decimal halogensMgPerKg) => halogensMgPerKg >= FromMgPerKg;
}
