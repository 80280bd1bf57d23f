namespace ShopFluids.Core.Wording;

/// <summary>Units in which quantities are shown and typed. What is stored stays in L, mm, °C and mg/L.</summary>
public enum UnitSystem : short
{
    /// <summary>L, mm, °C, mg/L.</summary>
    Metric = 0,

    /// <summary>US gal, in, °F, grains per US gallon.</summary>
    UsCustomary = 1,
}
