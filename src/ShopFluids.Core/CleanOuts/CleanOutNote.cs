using System.Text.Json.Serialization;

namespace ShopFluids.Core.CleanOuts;

/// <summary>What was noted at a step; each kind uses its own part. Immutable.</summary>
/// <param name="Choice">Of the plan.</param>
/// <param name="Confirmed">What was ticked, as in <see cref="CleanOutConfirmations"/>.</param>
/// <param name="Waste">What left the machine, by waste code.</param>
/// <param name="CleanerLitres">System cleaner that went in.</param>
/// <param name="Hours">How long it went round.</param>
/// <param name="SludgeMm">Sludge on the floor before it was cleaned.</param>
/// <param name="WaterLitres">Of the refill.</param>
/// <param name="Draws">Concentrate of the refill, by lot.</param>
/// <param name="OverrideReason">Why a supervisor allowed an expired or quarantined lot.</param>
/// <param name="Text">In words: the carrier, what was seen, a remark, or why the step was left out.</param>
/// <param name="IsLeftOut">The step was not done.</param>
/// <param name="HalogensMgPerKg">Total halogens of the waste as tested, with its carrier. It came later: empty, it has no place in the stored text.</param>
/// <param name="ShortReason">Of the cleaner: when it went round, or why so short, where it cannot have been as long as planned by the times noted. It came later, too.</param>
public sealed record CleanOutNote(
    CleanOutChoice? Choice = null,
    IReadOnlyList<string>? Confirmed = null,
    IReadOnlyList<WasteAmount>? Waste = null,
    decimal? CleanerLitres = null,
    decimal? Hours = null,
    decimal? SludgeMm = null,
    decimal? WaterLitres = null,
    IReadOnlyList<LotDrawn>? Draws = null,
    string? OverrideReason = null,
    string Text = "",
    bool IsLeftOut = false,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] decimal? HalogensMgPerKg = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] string? ShortReason = null)
{
    private const int StoredDecimals = 6;

    public static CleanOutNote Empty { get; } = new();

    public decimal AllWasteLitres() => (Waste ?? []).Sum(w => w.Litres);

    public decimal AllConcentrateLitres() => (Draws ?? []).Sum(d => d.Litres);

    /// <summary>As it is stored: trimmed, to the decimals of the database, without empty rows; what comes from one lot stands together.</summary>
    internal CleanOutNote Kept() => this with
    {
        Confirmed = Confirmed is { Count: > 0 } ? Confirmed : null,
        Waste = Waste?.Any(w => w.Litres != 0) == true ? [.. Waste.Where(w => w.Litres != 0).Select(w => new WasteAmount(w.Code.Trim(), Stored(w.Litres)))] : null,
        CleanerLitres = CleanerLitres is { } cleaner ? Stored(cleaner) : null,
        SludgeMm = SludgeMm is { } sludge ? Stored(sludge) : null,
        HalogensMgPerKg = HalogensMgPerKg is { } halogens ? Stored(halogens) : null,
        WaterLitres = WaterLitres is { } water ? Stored(water) : null,
        Draws = Draws?.Any(d => d.Litres != 0) == true ? [.. Draws.Where(d => d.Litres != 0).GroupBy(d => d.LotId).Select(g => new LotDrawn(g.Key, Stored(g.Sum(d => d.Litres))))] : null,
        OverrideReason = string.IsNullOrWhiteSpace(OverrideReason) ? null : OverrideReason.Trim(),
        ShortReason = string.IsNullOrWhiteSpace(ShortReason) ? null : ShortReason.Trim(),
        Text = Text.Trim(),
    };

    private static decimal Stored(decimal value) => decimal.Round(value, StoredDecimals, MidpointRounding.AwayFromZero);
}

/// <summary>How much left the machine under a code of the waste list.</summary>
public sealed record WasteAmount(string Code, decimal Litres);

/// <summary>Concentrate from one lot.</summary>
/// <param name="LotId">Null where none was chosen.</param>
public sealed record LotDrawn(Guid? LotId, decimal Litres);

/// <summary>What is to be done, in the terms of the plan of a clean-out.</summary>
/// <param name="ContentLitres">Old fluid in sump and lines.</param>
/// <param name="HeelLitres">What cannot be drained.</param>
/// <param name="CleanerPercent">Cleaner in the old fluid by its data sheet, % v/v; 0 for none.</param>
/// <param name="CirculationHours">How long it has to go round by its data sheet.</param>
/// <param name="Rinses">0 for none.</param>
/// <param name="RinseLitres">Each rinse.</param>
public sealed record CleanOutChoice(decimal ContentLitres, decimal HeelLitres, decimal CleanerPercent, decimal CirculationHours, int Rinses, decimal RinseLitres);
