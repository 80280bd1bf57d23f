namespace ShopFluids.Core.Sheets.LotTraces;

/// <summary>Where one lot went and what else was in the same sumps, ready to print. Every text is finished; printing formats nothing.</summary>
/// <param name="Answer">How many charges, sumps and machines ran on it, in a sentence.</param>
/// <param name="Charges">Those in which it was in the period.</param>
/// <param name="Pours">Each time that it was poured, of all these charges.</param>
/// <param name="Back">The way back: every charge of the same sumps in the period, with all its lots.</param>
/// <param name="Counts">When it was counted or thrown away.</param>
public sealed record LotSheet(
    SheetFrame Frame,
    LotSheetLot Lot,
    string Answer,
    IReadOnlyList<LotSheetCharge> Charges,
    IReadOnlyList<LotSheetPour> Pours,
    IReadOnlyList<LotSheetBack> Back,
    IReadOnlyList<LotSheetCount> Counts);

/// <param name="Books">Whether what is left is what the books say.</param>
public sealed record LotSheetLot(string Number, string Fluid, string Received, string Expires, string ReceivedLitres, string Poured, string Remaining, string State, string Books);

/// <param name="InSump">From when to when, or that it is still in.</param>
/// <param name="Others">The other lots of the charge, a line each.</param>
public sealed record LotSheetCharge(string Sump, string Machines, string Charge, string InSump, string Litres, string Others);

/// <param name="Override">Why a supervisor allowed a barred lot; empty where nobody had to.</param>
public sealed record LotSheetPour(string When, string Sump, string What, string ConcentrateLitres, string WaterLitres, string By, string Override);

public sealed record LotSheetBack(string Sump, string Machines, string Charge, string InSump, string Lots);

public sealed record LotSheetCount(string When, string What, string BeforeLitres, string AfterLitres, string By, string Reason);
