namespace ShopFluids.Rules.Facts;

/// <summary>How the next due day of a recurring step is reckoned.</summary>
public enum IntervalBasis : short
{
    /// <summary>Anchor day + k intervals; late work does not move the series.</summary>
    CalendarAnchored = 0,

    /// <summary>Day it was last done + interval.</summary>
    FromLastDone = 1,

    /// <summary>Day it was last done + an interval that follows what was found, within floor and ceiling.</summary>
    Condition = 2,

    /// <summary>Day it was last done + running hours of the machines, turned into days by their weekly hours. Planned, not metered.</summary>
    RunningHours = 3,

    /// <summary>So many days after a charge was filled, once for each charge.</summary>
    AfterFill = 4,

    /// <summary>So many days after a flag was raised, once for each flag.</summary>
    AfterFlag = 5,

    /// <summary>For a test: day it was last done + the days until a limit may be crossed with more than the accepted risk, within floor and ceiling.</summary>
    Risk = 6,
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
/// <param name="IntervalDays">1 to 3660 shop days of the calendar; of running hours already as days, of an event the days after it. Not looked at where there are months.</param>
/// <param name="Anchor">First due day of an anchored series; for a step from last done, the first due day before it was ever done.</param>
/// <param name="Parameters">For a test: what has to be measured on one shop day for it to count as done. Empty otherwise.</param>
public sealed record CareStepFacts(
    Guid Id,
    TaskKind Kind,
    IntervalBasis Basis,
    int IntervalDays,
    DateOnly Anchor,
    ClosedDayPolicy ClosedDays,
    IReadOnlyList<string> Parameters)
{
    /// <summary>Months of an interval by the calendar or from last done, 1 to 120; 0 for an interval in days.</summary>
    public int IntervalMonths { get; init; }

    /// <summary>After a flag: of which parameter; empty for any.</summary>
    public string EventParameter { get; init; } = "";

    /// <summary>The shift, 1 for the day's first, at whose end its work is due; 0 for the end of the shop day.</summary>
    public int Shift { get; init; }

    /// <summary>How the interval of a test follows the risk; null for every other basis.</summary>
    public RiskPolicy? Risk { get; init; }

    /// <summary>Whether one done leads to the next; a step after an event waits for the next event.</summary>
    public bool Recurs => Basis is not (IntervalBasis.AfterFill or IntervalBasis.AfterFlag);

    /// <summary>The interval in days, a month as the twelfth part of 365.25.</summary>
    public double UsualDays => IntervalMonths > 0 ? IntervalMonths * 365.25 / 12 : IntervalDays;

    /// <summary>One interval after a day. Months are counted on the calendar; a day that the month does not have is its last.</summary>
    /// <param name="day">The day.</param>
    /// <param name="intervals">How many intervals; below 0 for before.</param>
    public DateOnly Later(DateOnly day, int intervals = 1) => IntervalMonths > 0 ? day.AddMonths(intervals * IntervalMonths) : day.AddDays(intervals * IntervalDays);
}

/// <summary>What a shop accepts of a test whose interval follows the risk.</summary>
/// <param name="FloorDays">The shortest interval, 1 day or more.</param>
/// <param name="CeilingDays">The longest, from the floor to 3660 days.</param>
/// <param name="AcceptedPercent">The probability that a reading is out of its limits which is still accepted, 0.01 to 50 %.</param>
public sealed record RiskPolicy(int FloorDays, int CeilingDays, decimal AcceptedPercent);
