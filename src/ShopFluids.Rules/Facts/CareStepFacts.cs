namespace ShopFluids.Rules.Facts;

/// <summary>How the next due day of a recurring step is reckoned.</summary>
public enum IntervalBasis : short
{
    /// <summary>Anchor day + k intervals; late work does not move the series.</summary>
    CalendarAnchored = 0,

    /// <summary>Day it was last done + interval.</summary>
    FromLastDone = 1,
}

/// <summary>What happens when a due day falls on a closed shop day.</summary>
public enum ClosedDayPolicy : short
{
    /// <summary>The last open day before.</summary>
    Earlier = 0,

    /// <summary>The next open day.</summary>
    Later = 1,

    /// <summary>The day stays as it is.</summary>
    AsIs = 2,
}

/// <summary>One recurring step of a care plan.</summary>
/// <param name="Id">The step's id; its tasks carry the cause <c>step:{id}</c>.</param>
/// <param name="IntervalDays">1 to 3660 shop days of the calendar.</param>
/// <param name="Anchor">First due day of an anchored series; for a step from last done, the first due day before it was ever done.</param>
/// <param name="Parameters">For a test: what has to be measured on one shop day for it to count as done. Empty otherwise.</param>
public sealed record CareStepFacts(
    Guid Id,
    TaskKind Kind,
    IntervalBasis Basis,
    int IntervalDays,
    DateOnly Anchor,
    ClosedDayPolicy ClosedDays,
    IReadOnlyList<string> Parameters);
