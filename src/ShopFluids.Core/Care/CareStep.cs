using ShopFluids.Core.Database;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Care;

/// <summary>One recurring step and how its interval is reckoned.</summary>
public sealed class CareStep : Entity, ISetup
{
    private CareStep()
    {
    }

    public CareStep(Guid id, Guid carePlanId, TaskKind kind, IntervalBasis basis, int intervalDays, DateOnly anchor, ClosedDayPolicy closedDays, IReadOnlyList<string> parameters, int estimatedMinutes)
    {
        Id = id;
        CarePlanId = carePlanId;
        Kind = kind;
        Basis = basis;
        IntervalDays = intervalDays;
        Anchor = anchor;
        ClosedDays = closedDays;
        Parameters = parameters;
        EstimatedMinutes = estimatedMinutes;
    }

    public Guid CarePlanId { get; private set; }

    public TaskKind Kind { get; private set; }

    public IntervalBasis Basis { get; private set; }

    /// <summary>0 where the interval is in months or in running hours; of an event the days after it.</summary>
    public int IntervalDays { get; private set; }

    public int? IntervalMonths { get; private set; }

    /// <summary>Running hours of the machines.</summary>
    public int? IntervalHours { get; private set; }

    /// <summary>Of an interval that follows what was found: its shortest, its longest and what is wanted each time.</summary>
    public int? FloorDays { get; private set; }

    public int? CeilingDays { get; private set; }

    public decimal? WantedFind { get; private set; }

    /// <summary>Of a test whose interval follows the risk: the probability of being out of limits that is accepted, %.</summary>
    public decimal? AcceptedRiskPercent { get; private set; }

    /// <summary>After a flag: of which parameter; null for any.</summary>
    public string? EventParameter { get; private set; }

    /// <summary>The shift, 1 for the day's first, at whose end it is due; null for the end of the shop day.</summary>
    public int? Shift { get; private set; }

    /// <summary>What is needed to do it; null where nothing is said.</summary>
    public StepNeeds? Needs { get; private set; }

    /// <summary>Code of the template's step that it was made from; null where it was typed.</summary>
    public string? Template { get; private set; }

    public DateOnly Anchor { get; private set; }

    public ClosedDayPolicy ClosedDays { get; private set; }

    /// <summary>For a test: what has to be measured.</summary>
    public IReadOnlyList<string> Parameters { get; private set; } = [];

    public int EstimatedMinutes { get; private set; }

    public bool IsStopped { get; private set; }

    public void Stop() => IsStopped = true;

    public ConditionInterval? Condition => FloorDays is { } floor && CeilingDays is { } ceiling && WantedFind is { } wanted ? new(floor, ceiling, wanted) : null;

    public RiskPolicy? Risk => FloorDays is { } floor && CeilingDays is { } ceiling && AcceptedRiskPercent is { } accepted ? new(floor, ceiling, accepted) : null;

    public void CountMonths(int months) => IntervalMonths = months;

    public void CountRunningHours(int hours) => IntervalHours = hours;

    public void FollowFinds(ConditionInterval condition)
    {
        ArgumentNullException.ThrowIfNull(condition);
        (FloorDays, CeilingDays, WantedFind) = (condition.FloorDays, condition.CeilingDays, condition.Wanted);
    }

    public void FollowRisk(RiskPolicy policy)
    {
        ArgumentNullException.ThrowIfNull(policy);
        (FloorDays, CeilingDays, AcceptedRiskPercent) = (policy.FloorDays, policy.CeilingDays, policy.AcceptedPercent);
    }

    public void FallDueWithShift(int shift) => Shift = shift;

    public void Need(StepNeeds needs) => Needs = needs;

    public void ComeFrom(string template) => Template = template;

    public void FollowFlagsOf(string? parameter) => EventParameter = parameter;

    /// <param name="weeklyHours">Of the sump's machine that runs most.</param>
    public CareStepFacts ToFacts(decimal weeklyHours) =>
        new(Id, Kind, Basis, IntervalHours is { } hours ? RunningHours.Days(hours, weeklyHours) : IntervalDays, Anchor, ClosedDays, Parameters)
        {
            IntervalMonths = IntervalMonths ?? 0,
            EventParameter = EventParameter ?? "",
            Shift = Shift ?? 0,
            Risk = Risk,
        };

    public static string CauseOf(Guid stepId) => CareSchedule.CauseOf(stepId);
}
