namespace ShopFluids.Web.Api.CleanOuts;

/// <summary>A clean-out that begins, with its plan. What usually stands here, <c>GET /sumps/{tag}/clean-out</c> tells.</summary>
/// <param name="Id">Made by the sender, a UUID; sending it twice begins once.</param>
/// <param name="Sump">The sump's tag.</param>
/// <param name="ContentLitres">Old fluid in sump and lines.</param>
/// <param name="HeelLitres">What cannot be drained.</param>
/// <param name="CleanerPercent">System cleaner in the old fluid by its data sheet, % v/v; 0 for none.</param>
/// <param name="CirculationHours">How long the cleaner has to go round by its data sheet.</param>
/// <param name="Rinses">0 for none.</param>
/// <param name="RinseLitres">Each rinse.</param>
internal sealed record CleanOutRequest(
    Guid Id, string Sump, decimal ContentLitres, decimal HeelLitres, decimal CleanerPercent, decimal CirculationHours, int Rinses, decimal RinseLitres, string? Note = null);

/// <summary>What was noted at a step. Each step reads its own fields and lets the others pass.</summary>
/// <param name="Round">The round of the step as it was answered; 0 or left out where it is noted for the first time.</param>
/// <param name="Confirmed">Of safetySheets, carrier, lockOut and unlock: what the step's answer lists under confirm.</param>
/// <param name="CleanerLitres">Of cleaner: what went in.</param>
/// <param name="Hours">Of cleaner: how long it went round.</param>
/// <param name="Waste">Of drain, wipe and rinse: what left the machine, at most two kinds.</param>
/// <param name="SludgeMm">Of drain: sludge on the floor.</param>
/// <param name="WaterLitres">Of refill.</param>
/// <param name="Draws">Of refill: the concentrate, from at most two lots.</param>
/// <param name="OverrideReason">Of refill: why a supervisor allows an expired or quarantined lot.</param>
/// <param name="Carrier">Of carrier: who takes the waste.</param>
/// <param name="Seen">Of inspect: what was seen.</param>
/// <param name="Note">Of any other step.</param>
/// <param name="LeftOut">True where cleaner, wipe or rinse was not done.</param>
/// <param name="Reason">Why it was left out.</param>
/// <param name="HalogensMgPerKg">Of carrier: total halogens of the waste, where they were tested.</param>
/// <param name="ShortReason">Of cleaner: when it went in and was done, or why so short, where less time than was planned lies between the step before and this one.</param>
internal sealed record CleanOutStepRequest(
    int? Round = null,
    decimal? ContentLitres = null,
    decimal? HeelLitres = null,
    decimal? CleanerPercent = null,
    decimal? CirculationHours = null,
    int? Rinses = null,
    decimal? RinseLitres = null,
    IReadOnlyList<string>? Confirmed = null,
    decimal? CleanerLitres = null,
    decimal? Hours = null,
    IReadOnlyList<CleanOutWaste>? Waste = null,
    decimal? SludgeMm = null,
    decimal? WaterLitres = null,
    IReadOnlyList<CleanOutDraw>? Draws = null,
    string? OverrideReason = null,
    string? Carrier = null,
    string? Seen = null,
    string? Note = null,
    bool? LeftOut = null,
    string? Reason = null,
    decimal? HalogensMgPerKg = null,
    string? ShortReason = null);

/// <param name="Code">Of the waste list, such as 12 01 09*.</param>
internal sealed record CleanOutWaste(string Code, decimal Litres);

/// <param name="Lot">The number on its label.</param>
internal sealed record CleanOutDraw(string? Lot, decimal Litres);

internal sealed record CleanOutBreakOffRequest(string Reason);
