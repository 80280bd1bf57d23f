namespace ShopFluids.Core.Sheets;

/// <summary>
/// The history sheet of one sump over one period, ready to print. Every quantity, date and name is already the text that the
/// reader sees (formatted for the shop's culture and time zone), so that printing knows neither culture nor clock.
/// </summary>
public sealed record HistorySheet(
    HistorySheetTitle Title,
    HistorySheetHead Head,
    HistorySheetStanding Standing,
    HistorySheetCharge? Charge,
    IReadOnlyList<HistorySheetLimitSet> Limits,
    HistorySheetTrends Trends,
    IReadOnlyList<HistorySheetFlag> Flags,
    HistorySheetReadings Readings,
    IReadOnlyList<HistorySheetMovement> Movements,
    IReadOnlyList<HistorySheetLot> Lots,
    IReadOnlyList<HistorySheetTask> Tasks,
    SheetOrigin Origin)
{
    /// <summary>Empty where nothing was cleaned out in the period; the sheet has no such table then.</summary>
    public IReadOnlyList<HistorySheetCleanOutStep> CleanOuts { get; init; } = [];
}

/// <summary>The title block that stands on every page.</summary>
/// <remarks>
/// <para>Tag: the sump's tag, such as S-07; printed large.</para>
/// <para>Sheet: what the sheet is, such as "Fluid history, sump S-07".</para>
/// <para>Machine: tag and name of the machine, or of the machines of a central system.</para>
/// <para>Period: first and last day, such as "31 Aug to 25 Nov 2026".</para>
/// </remarks>
public sealed record HistorySheetTitle(string Tag, string Sheet, string Machine, string Area, string Period, string Shop);
