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
        new(m.Parameter, m.Method, m.RawValue, m.RawUnit, m.TemperatureCelsius, m.Value, m.Uncertainty, Codes.Of(m.Verdict), Codes.Of(m.Direction));
}
