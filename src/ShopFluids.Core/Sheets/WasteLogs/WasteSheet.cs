namespace ShopFluids.Core.Sheets.WasteLogs;

/// <summary>What left the sumps and the stores as waste, with totals. Every text is finished; printing formats nothing.</summary>
/// <param name="Total">All of it.</param>
/// <param name="Hazardous">Of it under codes that mark hazardous waste.</param>
/// <param name="Uncoded">Of it under no code; null where each has one.</param>
/// <param name="Codes">By code, the largest first.</param>
/// <param name="Months">By month and code, the latest month first.</param>
/// <param name="Entries">Each time, the latest first.</param>
public sealed record WasteSheet(
    SheetFrame Frame,
    string Total,
    string Hazardous,
    string? Uncoded,
    IReadOnlyList<WasteSheetCode> Codes,
    IReadOnlyList<WasteSheetMonth> Months,
    IReadOnlyList<WasteSheetEntry> Entries);

/// <param name="Meaning">What the code stands for; empty where the program does not know it.</param>
public sealed record WasteSheetCode(string Code, string Meaning, string Entries, string Litres);

/// <param name="Month">Empty in the further rows of a month.</param>
public sealed record WasteSheetMonth(string Month, string Code, string Litres, string MonthLitres);

/// <param name="From">The sump, or the lot that was thrown away.</param>
/// <param name="Carrier">As noted at the clean-out, with the note's number where it was written; or why the lot was thrown away and where to.</param>
/// <param name="Halogens">Total halogens with what they mean; the words for not tested where nobody noted any. Of a clean-out they stand at its first row alone.</param>
public sealed record WasteSheetEntry(string When, string From, string What, string Code, string Litres, string Halogens, string Carrier, string By);
