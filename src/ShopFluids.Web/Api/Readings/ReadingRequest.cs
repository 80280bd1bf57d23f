namespace ShopFluids.Web.Api.Readings;

/// <summary>A reading as a program sends it. Described here for the documentation; read field by field, so that every fault is answered.</summary>
/// <param name="Id">Made by the sender, a UUID; sending it twice stores it once.</param>
/// <param name="Sump">The sump's tag.</param>
/// <param name="TakenAt">ISO 8601 with its offset.</param>
/// <param name="Supersedes">For a correction: the reading that was wrong.</param>
/// <param name="CorrectionReason">Why it was wrong; needed with <paramref name="Supersedes"/>.</param>
internal sealed record ReadingRequest(
    Guid Id,
    string Sump,
    DateTimeOffset TakenAt,
    IReadOnlyList<MeasurementRequest> Measurements,
    string? Note = null,
    Guid? Supersedes = null,
    string? CorrectionReason = null);

/// <param name="Method">refractometer, titration or direct; left out, the usual way of the parameter.</param>
/// <param name="Value">A number, or a text with a point or a comma.</param>
/// <param name="Unit">Left out, the usual unit of the method.</param>
/// <param name="Instrument">The instrument's tag.</param>
/// <param name="Confirmed">The person was asked about an unlikely value and kept it.</param>
internal sealed record MeasurementRequest(
    string Parameter, decimal Value, string? Method = null, string? Unit = null, decimal? TemperatureC = null, string? Instrument = null, bool? Confirmed = null);
