using ShopFluids.Core.Limits;
using ShopFluids.Rules;

namespace ShopFluids.Core.Readings;

/// <summary>A way to measure a parameter and the units in which its raw value may be typed, the usual one first.</summary>
public sealed record MeasuringMethod(string Code, IReadOnlyList<string> Units)
{
    public const string Refractometer = MethodCodes.Refractometer;
    public const string Titration = MethodCodes.Titration;

    /// <summary>The value itself, in the parameter's unit.</summary>
    public const string Direct = "direct";

    /// <summary>The ways to measure a parameter, the usual one first.</summary>
    public static IReadOnlyList<MeasuringMethod> For(Parameter parameter) => parameter.Code switch
    {
        ParameterCodes.Concentration => [new(Refractometer, ["Brix"]), new(Titration, ["mL"]), new(Direct, ["%"])],
        ParameterCodes.Ph => [new(Direct, ["pH"])],
        ParameterCodes.Level => [new(Direct, ["mm", "in", "%"])],
        ParameterCodes.Temperature => [new(Direct, ["°C", "°F"])],
        ParameterCodes.Hardness => [new(Direct, ["mg/L", "gpg", "dH"])],
        ParameterCodes.Bacteria => [new(Direct, ["log10 CFU/mL", "CFU/mL"])],
        _ => [new(Direct, [parameter.Unit])],
    };
}

/// <summary>Names of the fields of a reading, the same on the page, in the API and in messages.</summary>
public static class FieldNames
{
    public const string TakenAt = "takenAt";
    public const string Note = "note";
    public const string Photo = "photo";
    public const string Sump = "sump";
    public const string Id = "id";
    public const string Measurements = "measurements";
    public const string CorrectionReason = "correctionReason";

    public static string Of(string parameter) => $"measurements.{parameter}";

    public static string MethodOf(string parameter) => $"measurements.{parameter}.method";

    public static string UnitOf(string parameter) => $"measurements.{parameter}.unit";

    public static string TemperatureOf(string parameter) => $"measurements.{parameter}.temperatureC";

    public static string InstrumentOf(string parameter) => $"measurements.{parameter}.instrument";
}
