using ShopFluids.Core.Limits;

namespace ShopFluids.Core.Readings;

/// <summary>A typed value after checking: its value in the canonical unit, rounded once, and what was used to get there.</summary>
internal sealed record WorkedMeasurement(
    Parameter Parameter,
    string Method,
    decimal RawValue,
    string RawUnit,
    Guid? InstrumentId,
    decimal? TemperatureCelsius,
    decimal? Factor,
    decimal? ZeroBrix,
    decimal Value,
    decimal Uncertainty,
    bool IsConfirmed);
