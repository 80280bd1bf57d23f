using ShopFluids.Core.Limits;
using ShopFluids.Rules;

namespace ShopFluids.Core.Setup;

/// <summary>
/// The parameters that a new shop starts with. Plausible ranges are physical; usual ranges and steps decide only what is asked
/// about once (common practice, no source). Everything can be changed in set-up.
/// </summary>
public static class ShippedParameters
{
    public static IReadOnlyList<Parameter> All() =>
    [
        new(ParameterCodes.Concentration, 10, ParameterScale.Number, "%", 1, 0, 100, 1, 20, 3, 0.3m),
        new(ParameterCodes.Ph, 20, ParameterScale.Number, "", 1, 0, 14, 7, 10.5m, 1, 0.1m),
        new(ParameterCodes.Level, 30, ParameterScale.Number, "mm", 0, 0, 5000, null, null, null, 2),
        new(ParameterCodes.Odour, 40, ParameterScale.Words, "", 0, 0, 3, null, null, null, 0),
        new(ParameterCodes.TrampOil, 50, ParameterScale.Number, "%", 0, 0, 100, null, null, null, 5),
        new(ParameterCodes.Foam, 60, ParameterScale.Words, "", 0, 0, 3, null, null, null, 0),
        new(ParameterCodes.Fines, 70, ParameterScale.Words, "", 0, 0, 3, null, null, null, 0),
        new(ParameterCodes.Temperature, 80, ParameterScale.Number, "°C", 0, -5, 95, 8, 45, null, 1),
        new(ParameterCodes.Bacteria, 90, ParameterScale.Magnitude, "log10 CFU/mL", 1, 0, 9, null, 8, null, 0.5m),
        new(ParameterCodes.Nitrite, 100, ParameterScale.Number, "mg/L", 0, 0, 1000, null, 200, null, 2),
        new(ParameterCodes.Nitrate, 110, ParameterScale.Number, "mg/L", 0, 0, 2000, null, 500, null, 5),
        new(ParameterCodes.Hardness, 120, ParameterScale.Number, "mg/L", 0, 0, 5000, null, 1500, null, 10),
        new(ParameterCodes.Conductivity, 130, ParameterScale.Number, "µS/cm", 0, 0, 50000, null, 20000, null, 50),
        new(ParameterCodes.Chloride, 140, ParameterScale.Number, "mg/L", 0, 0, 5000, null, 1000, null, 5),
    ];
}
