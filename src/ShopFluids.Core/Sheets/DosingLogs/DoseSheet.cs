namespace ShopFluids.Core.Sheets.DosingLogs;

/// <summary>What additives were put into the sumps, with totals. Every text is finished; printing formats nothing.</summary>
/// <param name="Count">How many doses count.</param>
/// <param name="Biocidal">Of them such as kill.</param>
/// <param name="Totals">Of those that count, by product.</param>
/// <param name="Entries">Each dose, the latest first; those that are struck out, too.</param>
public sealed record DoseSheet(SheetFrame Frame, string Count, string Biocidal, IReadOnlyList<DoseSheetTotal> Totals, IReadOnlyList<DoseSheetEntry> Entries);

public sealed record DoseSheetTotal(string Product, string Kind, string Doses, string Amount);

/// <param name="Reached">What the dose came to in the fluid.</param>
/// <param name="LabelMost">As typed from the label; the word for not recorded where it was not.</param>
/// <param name="Reentry">When people could come back; the word for not recorded where the label says nothing.</param>
/// <param name="Reason">Why it was given, and before it why against its label, where it was.</param>
/// <param name="StruckOut">When, by whom and why it was struck out; null where it counts. The row is struck through, this is not.</param>
public sealed record DoseSheetEntry(
    string When, string Sump, string Product, string Kind, string Amount, string Reached, string LabelMost, string Reentry, string Reason, string By, string? StruckOut = null);
