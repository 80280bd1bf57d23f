namespace ShopFluids.Web.Api.Additions;

/// <summary>What was poured into a sump, as a program sends it.</summary>
/// <param name="Id">Made by the sender, a UUID; sending it twice stores it once.</param>
/// <param name="Sump">The sump's tag.</param>
/// <param name="AddedAt">ISO 8601 with its offset.</param>
/// <param name="RemovedLitres">Taken out before.</param>
/// <param name="Lot">The number on the label of the concentrate; needed where concentrate was added.</param>
/// <param name="Reading">The reading whose recipe was followed.</param>
internal sealed record AdditionRequest(
    Guid Id,
    string Sump,
    DateTimeOffset AddedAt,
    decimal? WaterLitres = null,
    decimal? ConcentrateLitres = null,
    decimal? RemovedLitres = null,
    string? Lot = null,
    Guid? Reading = null);

/// <param name="VolumeLitres">What the sump holds by the record now; null where no level was ever read.</param>
internal sealed record AdditionAnswer(Guid Id, string Sump, double? VolumeLitres);
