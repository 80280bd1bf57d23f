using ShopFluids.Rules;

namespace ShopFluids.Core.Sheets;

/// <summary>A verdict with the word beside its mark; late says that the test is overdue, which has a mark of its own.</summary>
/// <remarks>
/// <para>Word: the verdict in words, such as "Warning, low" or "2 days late".</para>
/// </remarks>
public sealed record SheetVerdict(Verdict Verdict, Direction Direction, string Word, bool IsLate = false);

/// <summary>
/// The head fields that a printed coolant record is expected to carry (the sample test sheet of BGI 5003, section 4.6).
/// Null is printed as "not recorded", so that a gap is seen.
/// </summary>
public sealed record HistorySheetHead(
    string MachineName,
    string MachineNumber,
    string? MachiningType,
    string? Fluid,
    string? WorkingConcentration,
    string? Biocide,
    string? BiocideConcentration,
    string? FillVolume,
    string? MakeUpNitrate,
    string? MakeUpNitrite,
    string? MakeUpHardness,
    string? RefractometerFactor,
    string? TitrationFactor,
    string? ResponsiblePerson);

/// <summary>Where the sump stands at the time of printing.</summary>
/// <remarks>
/// <para>At: the instant, in shop time, such as "25 Nov 2026, 14:26".</para>
/// </remarks>
public sealed record HistorySheetStanding(string At, IReadOnlyList<HistorySheetStandingRow> Rows);

/// <remarks>
/// <para>Value: the latest value with its unit, printed bold; empty where nothing was measured.</para>
/// <para>Remark: what stands beside the value: give-or-take, "of 160", or when it is due.</para>
/// </remarks>
public sealed record HistorySheetStandingRow(string Parameter, string Value, string Remark, SheetVerdict Verdict);

/// <summary>The charge that is in the sump now. Null is left out of the block. What the fill brought and what was added since stand apart: each has its own lots.</summary>
public sealed record HistorySheetCharge(
    string Number,
    string FilledOn,
    string Age,
    string? FillLot,
    string? Volume,
    string? WaterFilled,
    string? ConcentrateFilled,
    string? WaterAdded,
    string? ConcentrateAdded,
    string? Removed,
    string? Evaporated,
    string? CarriedOff,
    string? HardnessNow);

/// <summary>One version of the limits that applied in the period.</summary>
/// <remarks>
/// <para>ValidTo: the last day, or null while it is in force.</para>
/// </remarks>
public sealed record HistorySheetLimitSet(string Version, string ValidFrom, string? ValidTo, IReadOnlyList<HistorySheetLimitRow> Rows);

/// <remarks>
/// <para>Parameter: name with its unit, such as "Concentration, % v/v".</para>
/// <para>Target: both ends, such as "7.0 to 9.0".</para>
/// </remarks>
public sealed record HistorySheetLimitRow(
    string Parameter, string Method, string? ActionLow, string? WarningLow, string? Target, string? WarningHigh, string? ActionHigh);
