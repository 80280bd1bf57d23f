namespace ShopFluids.Core.Sheets.InstrumentChecks;

/// <summary>The instruments with their checks and when a check had lapsed. Every text is finished; printing formats nothing.</summary>
/// <param name="Lapsed">How many want a check now.</param>
/// <param name="Instruments">By tag.</param>
/// <param name="Checks">Those noted in the period, the latest first.</param>
/// <param name="Lapses">Those that were open in the period, the latest first.</param>
public sealed record InstrumentSheet(
    SheetFrame Frame, string Count, string Lapsed, IReadOnlyList<InstrumentSheetRow> Instruments, IReadOnlyList<InstrumentSheetCheck> Checks, IReadOnlyList<InstrumentSheetLapse> Lapses);

/// <param name="HoldsUntil">Empty where no check is needed or none was made.</param>
public sealed record InstrumentSheetRow(string Tag, string Kind, string Resolution, string Accuracy, string Every, string CheckedOn, string HoldsUntil, SheetVerdict Standing);

/// <param name="CheckedOn">The day of the check.</param>
/// <param name="Result">Passed or failed.</param>
/// <param name="Standards">What it showed in each; empty where it was only looked over.</param>
/// <param name="Slope">Empty without a second standard.</param>
public sealed record InstrumentSheetCheck(string Tag, string CheckedOn, SheetVerdict Result, string Standards, string Offset, string Slope, string By);

/// <param name="Readings">How many values were read with it meanwhile.</param>
/// <param name="Answer">What was said to be done about it; empty where nothing was.</param>
public sealed record InstrumentSheetLapse(string Tag, string From, string Until, string Readings, string Answer);
