using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Board;

/// <summary>What the supervisor sees: everything open, in the order in which it needs somebody.</summary>
/// <param name="Setup">The snapshot that the rows were made with; names and numbers are worded with it.</param>
/// <param name="Days">The days of the strip, today first.</param>
/// <param name="NextClosure">The closed days that begin within the strip after today; null when none do.</param>
/// <param name="Rows">Sumps that need somebody.</param>
/// <param name="Quiet">Sumps in range with nothing late, from which nobody has to keep away and that warn of no gas.</param>
/// <param name="People">Who can be given work.</param>
public sealed record ShopBoard(
    DateTime AtUtc,
    ShopSetup Setup,
    IReadOnlyList<BoardDay> Days,
    ClosedDays? NextClosure,
    BoardCounts Counts,
    IReadOnlyList<BoardRow> Rows,
    IReadOnlyList<BoardRow> Quiet,
    IReadOnlyList<BoardPerson> People)
{
    /// <summary>What is open on lots, stocks and instruments, the earliest due first.</summary>
    public IReadOnlyList<ListedShopFlag> ShopFlags { get; init; } = [];
}

/// <summary>Closed days in a row, both included.</summary>
public sealed record ClosedDays(DateOnly First, DateOnly Last);

public sealed record BoardDay(DateOnly Day, bool IsOpen);

/// <param name="NeedSomeoneToday">Sumps with work late or due today.</param>
public sealed record BoardCounts(int Action, int Warning, int TasksLate, int NotMeasured, int InRange, int NeedSomeoneToday);

public sealed record BoardPerson(Guid Id, string Name);

/// <summary>One sump.</summary>
/// <param name="Machines">Tag and name of each machine served; more than one makes it a central system.</param>
/// <param name="FilledAtUtc">When the open charge was filled; null when the sump stands empty.</param>
/// <param name="Tasks">All open work, the earliest first.</param>
public sealed record BoardRow(
    Guid SumpId,
    string Tag,
    Guid AreaId,
    IReadOnlyList<BoardMachine> Machines,
    SumpStanding Standing,
    DateTime? FilledAtUtc,
    DateTime? LastReadAtUtc,
    IReadOnlyList<BoardFlag> Flags,
    IReadOnlyList<BoardTask> Tasks)
{
    /// <summary>The shop days until the next work; null when none is planned.</summary>
    public int? DaysToNext { get; init; }

    /// <summary>Where it comes among sumps that stand alike.</summary>
    public WorkPriority Priority { get; init; } = new(HasActionFlag: false, 0, 0, 0);

    /// <summary>The open work by visits to the sump, the first visit first.</summary>
    public IReadOnlyList<BoardVisit> Visits => BoardVisit.Of(Tasks);

    /// <summary>Why it was passed by on this day's round; null when it was not, or was read since.</summary>
    public StopSkip? Skip { get; init; }

    /// <summary>Until when people keep away after a dose; null when nobody has to.</summary>
    public KeepAway? KeepAway { get; init; }

    /// <summary>It smelled of hydrogen sulphide when somebody last smelled at it, whatever became of the flag.</summary>
    public bool SmelledOfGas { get; init; }

    /// <summary>Whoever goes there must know it before they bend over it.</summary>
    public bool WarnsOfGas => SmelledOfGas || Flags.Any(f => f.WarnsOfGas);

    /// <summary>Since when the oldest flag that went to the supervisor has not been answered.</summary>
    public DateTime? UnansweredSinceUtc => Flags.Where(f => f.EscalatedAtUtc is not null).Select(f => (DateTime?)f.RaisedAtUtc).Min();

    public bool IsQuiet => Standing.State == SumpState.InRange && Flags.Count == 0 && !Tasks.Any(t => t.IsLate) && KeepAway is null && !WarnsOfGas;
}

public sealed record BoardMachine(string Tag, string Name);

/// <param name="Numbers">What the rule was raised with.</param>
public sealed record BoardFlag(
    Guid Id, string Rule, string Parameter, Verdict Severity, Direction Direction, IReadOnlyDictionary<string, decimal> Numbers, DateTime RaisedAtUtc)
{
    /// <summary>What the parameter was last found to be, where that is newer than what the flag was raised with and differs from it.</summary>
    public decimal? Latest { get; init; }

    /// <summary>When it went to the supervisor because nobody had answered it.</summary>
    public DateTime? EscalatedAtUtc { get; init; }

    /// <summary>It smells, or smelled when the flag was raised, of hydrogen sulphide.</summary>
    public bool WarnsOfGas => CautionAdvice.WarnsOfGas(Parameter, Numbers) || (Parameter == ParameterCodes.Odour && CautionAdvice.WarnsOfGas(Latest ?? 0));
}

/// <param name="DueDay">The shop day at whose end it becomes late.</param>
/// <param name="IsOfPlan">Recurring work of the care plan; otherwise a flag asked for it.</param>
public sealed record BoardTask(
    Guid Id,
    TaskKind Kind,
    string Cause,
    DateTime DueAtUtc,
    DateOnly DueDay,
    bool IsLate,
    bool IsOfPlan,
    TopUpRecipe? Recipe,
    BoardPerson? Who)
{
    /// <summary>When it was asked for. A flag that gives way to a worse one hands its work on, so that this may be before the flag that is open now.</summary>
    public DateTime AskedAtUtc { get; init; }

    /// <summary>A flag asked for what the plan asks for too.</summary>
    public bool IsAlsoOfPlan { get; init; }

    /// <summary>A draining that another one, which is to be done before it, does too if it is done now.</summary>
    public bool GoesWithDraining { get; init; }

    /// <summary>The day of the visit in which it is done, where that is reckoned.</summary>
    public DateOnly? VisitsOn { get; init; }

    /// <summary>The day of the visit in which it is done: never after it is due, unless it is late already.</summary>
    public DateOnly VisitDay => VisitsOn ?? DueDay;

    /// <summary>Of a test whose interval follows the risk: what set its day.</summary>
    public TestReason? Why { get; init; }

    /// <summary>What the care plan reckons for it, min; 0 where it says nothing.</summary>
    public int Minutes { get; init; }

    /// <summary>What is late, what a flag asked for, and what is done with a visit by tomorrow: the rest can wait.</summary>
    public bool IsPressing(DateOnly today) => IsLate || !IsOfPlan || VisitDay <= today.AddDays(1);
}

/// <summary>What is done at a sump in one go.</summary>
/// <param name="Tasks">The earliest due first.</param>
public sealed record BoardVisit(DateOnly Day, IReadOnlyList<BoardTask> Tasks)
{
    /// <summary>What the care plan reckons for all of it, min; 0 where it says nothing.</summary>
    public int Minutes => Tasks.Sum(t => t.Minutes);

    /// <summary>The tasks by their visits, the first visit first.</summary>
    public static IReadOnlyList<BoardVisit> Of(IEnumerable<BoardTask> tasks) =>
        [.. tasks.GroupBy(t => t.VisitDay).OrderBy(g => g.Key).Select(g => new BoardVisit(g.Key, [.. LookFirst([.. g])]))];

    // What a flag wants measured again or looked at comes before anything is put right by it, and before the fluid that tells of it is gone.
    private static IEnumerable<BoardTask> LookFirst(List<BoardTask> tasks) =>
        !tasks.Exists(t => t is { Kind: TaskKind.Test or TaskKind.Inspect, IsOfPlan: false }) ? tasks
        : tasks.OrderBy(t => t.Kind switch { TaskKind.DrainClean => 2, TaskKind.Adjust => 1, _ => 0 });
}
