namespace ShopFluids.Rules;

/// <summary>Codes of the methods that the shipped rules tell apart.</summary>
public static class MethodCodes
{
    /// <summary>Hand refractometer: tramp oil, drop size and temperature falsify it (DGUV Regel 109-003, 7.1.1).</summary>
    public const string Refractometer = "refractometer";

    /// <summary>Titration: independent of tramp oil (DGUV Regel 109-003, 7.1.1), so it decides where both were taken.</summary>
    public const string Titration = "titration";
}
