using ShopFluids.Core.Exchange;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Readings;

/// <summary>A stored reading in a list.</summary>
internal sealed record ReadingRow(
    Guid Id,
    DateTime TakenAt,
    DateTime StoredAt,
    string Person,
    string Note,
    string Verdict,
    Guid? Supersedes,
    string? CorrectionReason,
    Guid? SupersededBy,
    IReadOnlyList<MeasurementRow> Measurements)
{
    public static ReadingRow Of(StoredReading reading) => new(
        reading.Id,
        reading.TakenAtUtc,
        reading.StoredAtUtc,
        reading.Person,
        reading.Note,
        Codes.Of(reading.Verdict),
        reading.SupersedesId,
        reading.CorrectionReason,
        reading.SupersededById,
        [.. reading.Measurements.Select(MeasurementRow.Of)]);
}

internal sealed record MeasurementRow(string Parameter, string Method, decimal RawValue, string RawUnit, decimal? TemperatureC, double Value, double Uncertainty, string Verdict, string Direction)
{
    public static MeasurementRow Of(StoredMeasurement m) =>
        new(m.Parameter, m.Method, Plain(m.RawValue), m.RawUnit, m.TemperatureCelsius is { } t ? Plain(t) : null, m.Value, m.Uncertainty, Codes.Of(m.Verdict), Codes.Of(m.Direction));

    // One of the engines gives back 4.100000 for a stored 4.1.
    private static decimal Plain(decimal value) => value / 1.000000000000000000000000000000000m;
}
