namespace ShopFluids.Core.Sheets.OverdueWork;

/// <summary>What is late and what is due today, with the open flags and boxes to tick by hand. Every text is finished; printing formats nothing.</summary>
/// <param name="Order">By what it is sorted, in words.</param>
/// <param name="Counts">How much is late and how much due today.</param>
/// <param name="IsByPerson">The groups are people; otherwise areas.</param>
/// <param name="Stores">Work on lots, stocks and instruments; belongs to nobody's round.</param>
public sealed record OverdueSheet(SheetFrame Frame, string Order, string Counts, bool IsByPerson, IReadOnlyList<OverdueGroup> Groups, IReadOnlyList<OverdueStore> Stores);

/// <summary>An area or a person.</summary>
/// <param name="Tasks">The latest first.</param>
/// <param name="Flags">Open flags of its sumps, the worst first.</param>
public sealed record OverdueGroup(string Name, IReadOnlyList<OverdueTask> Tasks, IReadOnlyList<OverdueFlag> Flags);

/// <param name="Due">How late it is, or by when today.</param>
/// <param name="Other">Who does it where areas are the groups, and where it is where people are.</param>
public sealed record OverdueTask(string Sump, string Machines, string What, SheetVerdict Due, string Other);

public sealed record OverdueFlag(string Sump, SheetVerdict Verdict, string Reason, string Raised);

public sealed record OverdueStore(string What, SheetVerdict Due);
