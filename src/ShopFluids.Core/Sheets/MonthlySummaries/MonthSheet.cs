namespace ShopFluids.Core.Sheets.MonthlySummaries;

/// <summary>What a month cost and how the shop fared, ready to print. Every text is finished; printing formats nothing.</summary>
/// <param name="Use">By fluid.</param>
/// <param name="Work">By kind of work.</param>
/// <param name="Flags">By rule.</param>
/// <param name="Charges">Those that ended, in the order in which they did.</param>
public sealed record MonthSheet(
    SheetFrame Frame,
    MonthSheetFacts Facts,
    IReadOnlyList<MonthSheetUse> Use,
    IReadOnlyList<MonthSheetWork> Work,
    IReadOnlyList<MonthSheetFlags> Flags,
    IReadOnlyList<MonthSheetCharge> Charges);

/// <param name="Cost">Of the concentrate; says what it leaves out where a lot has no price.</param>
/// <param name="SumpsRead">How many of the sumps in use were read.</param>
/// <param name="CleanOuts">How many charges ended step by step, of how many that ended.</param>
/// <param name="MeanLife">Null where no charge ended.</param>
public sealed record MonthSheetFacts(string Concentrate, string Cost, string Readings, string SumpsRead, string CleanOuts, string? MeanLife);

public sealed record MonthSheetUse(string Fluid, string FillLitres, string AddedLitres, string WaterLitres, string RemovedLitres, string Cost);

/// <param name="Late">Of those done, after they were due.</param>
/// <param name="StillLate">Open and past due at the month's end, or at printing.</param>
public sealed record MonthSheetWork(string Kind, string Done, string Late, string Skipped, string StillLate);

/// <param name="Ended">By a later reading, with the charge, or because the reading no longer counts.</param>
/// <param name="Closed">By a person, with a reason.</param>
/// <param name="Open">At the month's end, or at printing.</param>
public sealed record MonthSheetFlags(string Rule, string Raised, string Ended, string Closed, string Open);

/// <param name="How">Step by step, or drained without.</param>
public sealed record MonthSheetCharge(string Sump, string Charge, string Fluid, string Filled, string Drained, string Life, string Litres, string How);
