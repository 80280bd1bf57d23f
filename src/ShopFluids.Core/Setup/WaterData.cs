using ShopFluids.Core.Database;

namespace ShopFluids.Core.Setup;

/// <summary>What an analysis of make-up water says, and what the refractometer shows for it.</summary>
/// <param name="ZeroBrix">-1 to 5.</param>
/// <param name="HardnessMgPerLitre">0 to 5000 as CaCO3; null where it is not known.</param>
/// <param name="NitrateMgPerLitre">0 to 2000; null where it is not known.</param>
/// <param name="NitriteMgPerLitre">0 to 1000; null where it is not known.</param>
public sealed record WaterData(string Name, decimal ZeroBrix, decimal? HardnessMgPerLitre, decimal? NitrateMgPerLitre, decimal? NitriteMgPerLitre);

internal static class WaterChecks
{
    public static List<FieldError> Faults(WaterData data)
    {
        var errors = new List<FieldError>();
        TextChecks.Check(errors, "name", data.Name, 120);
        SetupFields.Range(errors, "zeroBrix", data.ZeroBrix, -1, 5, "Brix");
        SetupFields.Range(errors, "hardness", data.HardnessMgPerLitre ?? 0, 0, 5000, "mg/L");
        SetupFields.Range(errors, "nitrate", data.NitrateMgPerLitre ?? 0, 0, 2000, "mg/L");
        SetupFields.Range(errors, "nitrite", data.NitriteMgPerLitre ?? 0, 0, 1000, "mg/L");
        return errors;
    }
}
