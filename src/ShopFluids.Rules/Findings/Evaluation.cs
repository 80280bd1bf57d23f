using ShopFluids.Calculations.Mixing;

namespace ShopFluids.Rules.Findings;

/// <summary>What the rules make of one reading: codes and numbers only; the sentence is made where it is shown.</summary>
/// <param name="Measurements">A verdict for each measurement, in the reading's order.</param>
/// <param name="Verdict">The worst of them.</param>
/// <param name="Raised">New flags.</param>
/// <param name="Cleared">Open flags that this reading ends.</param>
/// <param name="Recipe">The top-up recipe where volume and concentration are known; otherwise null.</param>
/// <param name="NewTasks">Work that falls due because of this reading or because a step of the plan was done.</param>
/// <param name="DoneTasks">Open tasks that this reading itself completes (tests).</param>
/// <param name="WithdrawnTasks">Open tasks whose cause went away.</param>
/// <param name="Cautions">Cautions that belong to the advice, most important first.</param>
/// <param name="NextTestDueAt">The earliest due time of an open or new test, UTC.</param>
public sealed record Evaluation(
    IReadOnlyList<JudgedMeasurement> Measurements,
    Verdict Verdict,
    IReadOnlyList<RaisedFlag> Raised,
    IReadOnlyList<Guid> Cleared,
    TopUpRecipe? Recipe,
    IReadOnlyList<ProposedTask> NewTasks,
    IReadOnlyList<Guid> DoneTasks,
    IReadOnlyList<Guid> WithdrawnTasks,
    IReadOnlyList<Caution> Cautions,
    DateTime? NextTestDueAt);

/// <summary>The verdict on one measurement.</summary>
/// <param name="Limit">The limit that was crossed, in the parameter's unit (or the allowed fall for <see cref="Facts.LimitBasis.DropFromFirstFill"/>); null in range.</param>
/// <param name="Basis">What the crossed limit is held against; <see cref="Facts.LimitBasis.Value"/> in range.</param>
public sealed record JudgedMeasurement(
    string Parameter,
    string Method,
    Verdict Verdict,
    Direction Direction,
    decimal? Limit,
    Facts.LimitBasis Basis = Facts.LimitBasis.Value);

/// <summary>A finding.</summary>
/// <param name="Rule">The rule's code.</param>
/// <param name="RuleVersion">The rule's version: raised when the same facts would give another finding.</param>
/// <param name="Parameter">The parameter it is about; empty when it is about the sump.</param>
/// <param name="Numbers">The numbers it used, by <see cref="NumberNames"/>.</param>
public sealed record RaisedFlag(string Rule, int RuleVersion, string Parameter, Verdict Severity, Direction Direction, IReadOnlyDictionary<string, decimal> Numbers);

/// <summary>Work that should exist. A task of the same kind and cause that is already open is kept instead.</summary>
/// <param name="StepId">The care step, for work of the plan.</param>
/// <param name="DueAt">The moment at which it becomes late, UTC.</param>
/// <param name="FromRecipe">The task carries the evaluation's recipe.</param>
public sealed record ProposedTask(TaskKind Kind, string Cause, Guid? StepId, DateTime DueAt, bool FromRecipe)
{
    /// <summary>Of a test whose interval follows the risk: what set its day.</summary>
    public Scheduling.TestReason? Why { get; init; }
}

/// <summary>Names of the numbers that a flag carries.</summary>
public static class NumberNames
{
    /// <summary>The value judged.</summary>
    public const string Value = "value";

    /// <summary>The limit crossed.</summary>
    public const string Limit = "limit";

    /// <summary>The value at or inside of which the flag clears; only inside of it where <see cref="EdgeIsBeyond"/> is told and it is the limit itself.</summary>
    public const string ClearsAt = "clearsAt";

    /// <summary>1 where a value on the limit is already beyond it; not told where it is inside.</summary>
    public const string EdgeIsBeyond = "edgeIsBeyond";

    /// <summary>The first-fill value from which a fall is reckoned.</summary>
    public const string FirstFill = "firstFill";

    /// <summary>How far the value has fallen from it.</summary>
    public const string Drop = "drop";

    /// <summary>What the refractometer said, % v/v.</summary>
    public const string Refractometer = "refractometer";

    /// <summary>What the titration said, % v/v.</summary>
    public const string Titration = "titration";

    /// <summary>Refractometer over titration.</summary>
    public const string Ratio = "ratio";

    /// <summary>Its expanded uncertainty.</summary>
    public const string RatioUncertainty = "ratioUncertainty";

    /// <summary>What the sump holds above the pump's intake, L.</summary>
    public const string UsableLitres = "usableLitres";

    /// <summary>What is on its way while the pump runs, L.</summary>
    public const string NeededLitres = "neededLitres";

    /// <summary>1 where that is a guess; not told where the shop has said it.</summary>
    public const string NeededIsGuessed = "neededIsGuessed";

    /// <summary>What the value usually is in this charge.</summary>
    public const string Usual = "usual";

    /// <summary>The odour found with it, as its word's number.</summary>
    public const string Odour = "odour";

    /// <summary>1 where the concentration was found to be the usual one; not told where it is not known.</summary>
    public const string Steady = "steady";

    /// <summary>Days over which it was reckoned.</summary>
    public const string Days = "days";

    /// <summary>Litres that nobody recorded: of water, or of mix.</summary>
    public const string GainedLitres = "gainedLitres";

    /// <summary>Their expanded uncertainty.</summary>
    public const string GainUncertainty = "gainUncertainty";

    /// <summary>Litres lost.</summary>
    public const string LostLitres = "lostLitres";

    /// <summary>Litres usually lost in the same time.</summary>
    public const string UsualLitres = "usualLitres";

    /// <summary>Litres of concentrate that nobody recorded; 0 where there are none.</summary>
    public const string GainedConcentrate = "gainedConcentrate";

    /// <summary>Litres of mix that went while water came in; not told where they are too few to tell.</summary>
    public const string LostMix = "lostMix";

    /// <summary>How late a test was when noticed, in hours.</summary>
    public const string HoursLate = "hoursLate";

    /// <summary>How many open shop days began since it was due.</summary>
    public const string ShopDaysLate = "shopDaysLate";

    /// <summary>The value of the reading before.</summary>
    public const string Previous = "previous";

    /// <summary>When the value was measured, milliseconds since the beginning of 1970, UTC.</summary>
    public const string TakenAt = "takenAt";

    /// <summary>The change since then that known additions, removals and losses explain.</summary>
    public const string ExpectedChange = "expectedChange";

    /// <summary>How far a value may lie from what is expected, by the changes so far.</summary>
    public const string ChangeLimit = "changeLimit";

    /// <summary>How many earlier changes that limit rests on.</summary>
    public const string Changes = "changes";

    /// <summary>How fast it changes, in its unit a week; negative when it falls.</summary>
    public const string SlopePerWeek = "slopePerWeek";

    /// <summary>In how many days from the reading the limit is met at that rate.</summary>
    public const string DaysUntil = "daysUntil";

    /// <summary>The same at the fastest rate that the readings allow.</summary>
    public const string DaysEarliest = "daysEarliest";

    /// <summary>At the slowest; not told where that would never meet it.</summary>
    public const string DaysLatest = "daysLatest";

    /// <summary>How many readings it rests on.</summary>
    public const string Readings = "readings";

    /// <summary>What is left of a lot, L.</summary>
    public const string RemainingLitres = "remainingLitres";

    /// <summary>Concentrate for planned refills, L.</summary>
    public const string PlannedLitres = "plannedLitres";

    /// <summary>For how many days something holds.</summary>
    public const string EveryDays = "everyDays";

    /// <summary>How many times its first value a salt has risen to.</summary>
    public const string SaltTimes = "saltTimes";

    /// <summary>The first value of something in a charge; with what it is of behind it.</summary>
    public const string First = "first";

    /// <summary>How many times bacteria have come back in a charge.</summary>
    public const string Comebacks = "comebacks";

    /// <summary>Within how many days the work is to be done.</summary>
    public const string WithinDays = "withinDays";
}

/// <summary>A caution that stands beside advice. Each defers to the safety data sheet, local codes and licensed practice.</summary>
public enum Caution : short
{
    /// <summary>Gloves and goggles with concentrates and additives; the safety data sheet.</summary>
    GlovesAndGoggles = 1,

    /// <summary>Concentrate into water, outside the sump.</summary>
    ConcentrateIntoWater = 2,

    /// <summary>No biocide on this reading alone; trained people only, per label.</summary>
    BiocideByLabel = 3,

    /// <summary>Rotten-egg smell: hydrogen sulphide; ventilate, keep the head out, a sump may be a confined space.</summary>
    HydrogenSulphide = 4,

    /// <summary>Skimmers and submersible pumps on a residual-current protected outlet.</summary>
    ResidualCurrent = 5,

    /// <summary>Lock out before reaching into conveyors and pumps.</summary>
    LockOut = 6,

    /// <summary>Nitrite with secondary amines: nitrosamines.</summary>
    Nitrosamines = 7,

    /// <summary>Spent fluid is regulated waste: licensed carrier.</summary>
    RegulatedWaste = 8,

    /// <summary>Skin or breathing complaints: occupational health.</summary>
    OccupationalHealth = 9,

    /// <summary>Stop the pump and leave it: its intake is bare.</summary>
    PumpRunsDry = 10,
}
