using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.History;

/// <summary>The limits that applied in the period: one table for each version, the one in force first.</summary>
internal static class LimitsBlock
{
    public static void Add(PageFlow flow, IReadOnlyList<HistorySheetLimitSet> versions)
    {
        if (versions.Count == 0)
        {
            flow.Table(Texts.Sheet_Limits, [], [], Texts.Sheet_NoLimits);
        }

        foreach (var version in versions)
        {
            flow.Table(Heading(version), Columns(), [.. version.Rows.Select(Row)], Texts.Sheet_NoLimits);
        }
    }

    private static string Heading(HistorySheetLimitSet limits) => limits.ValidTo is { } end
        ? SheetText.Fill(Texts.Sheet_LimitsBefore, limits.Version, limits.ValidFrom, end)
        : SheetText.Fill(Texts.Sheet_LimitsInForce, limits.Version, limits.ValidFrom);

    private static TableColumn[] Columns() =>
    [
        new(Texts.Sheet_Parameter), new(Texts.Sheet_Method, TakesRest: true), new(Texts.Sheet_ActionLow, IsRight: true), new(Texts.Sheet_WarningLow, IsRight: true),
        new(Texts.Sheet_Target, IsRight: true), new(Texts.Sheet_WarningHigh, IsRight: true), new(Texts.Sheet_ActionHigh, IsRight: true),
    ];

    private static TableRow Row(HistorySheetLimitRow row) =>
        new([row.Parameter, row.Method, .. new[] { row.ActionLow, row.WarningLow, row.Target, row.WarningHigh, row.ActionHigh }.Select(v => new TableCell(v ?? Texts.Sheet_NoLimit))]);
}
