using ShopFluids.Rules;

namespace ShopFluids.Core.Sheets;

/// <remarks>
/// <para>Ended: how and when it ended, or the word for open.</para>
/// </remarks>
public sealed record HistorySheetFlag(string Raised, SheetVerdict Verdict, string Reason, string Ended);

/// <summary>The readings of the period, newest first, one column for each parameter that was measured.</summary>
public sealed record HistorySheetReadings(IReadOnlyList<HistorySheetColumn> Columns, IReadOnlyList<HistorySheetReading> Rows);

/// <remarks>
/// <para>Heading: short name with unit, such as "Level mm".</para>
/// <para>IsNumber: numbers stand to the right, words to the left.</para>
/// <para>IsMain: main parameters are printed bold.</para>
/// </remarks>
public sealed record HistorySheetColumn(string Heading, bool IsNumber, bool IsMain);

/// <remarks>
/// <para>Cells: one for each column, in their order.</para>
/// <para>Remark: the note and other remarks of the visit; empty when there are none.</para>
/// <para>Superseded: for a superseded reading: when, by whom and why, in words. The row is struck through, this is not.</para>
/// </remarks>
public sealed record HistorySheetReading(
    string When, string By, IReadOnlyList<HistorySheetCell> Cells, SheetVerdict Verdict, string Remark, string? Superseded = null);

/// <summary>One value of a reading with its own verdict, whose mark stands beside it when it is out of range.</summary>
public sealed record HistorySheetCell(string Text, Verdict Verdict = Verdict.NotMeasured, Direction Direction = Direction.None);

/// <summary>Something put into the sump or taken out.</summary>
/// <remarks>
/// <para>What: fill, top-up, dose, removal, drain, in words.</para>
/// <para>WaterLitres: empty when none.</para>
/// <para>Lot: lot numbers of what went in; empty for water alone.</para>
/// <para>StruckOut: for a dose that is struck out: when, by whom and why, in words. The row is struck through, this is not.</para>
/// </remarks>
public sealed record HistorySheetMovement(
    string When, string What, string WaterLitres, string ConcentrateLitres, string RemovedLitres, string Lot, string By, string Remark, string? StruckOut = null);

/// <summary>A lot that went into the sump in the period.</summary>
public sealed record HistorySheetLot(string Lot, string Fluid, string Received, string Expiry, string DrawnLitres);

/// <remarks>
/// <para>Done: when it was done, or the word for open, skipped, withdrawn or done by a dose that is struck out.</para>
/// <para>What: the task with what was found, or the reason for skipping.</para>
/// </remarks>
public sealed record HistorySheetTask(string Due, string Done, string What, string By);

/// <summary>A step of a clean-out: who did it, when, and what was noted, with the waste by its code.</summary>
public sealed record HistorySheetCleanOutStep(string When, string Step, string Noted, string By);
