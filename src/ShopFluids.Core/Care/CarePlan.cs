using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Care;

/// <summary>The recurring steps of one sump.</summary>
public sealed class CarePlan : Entity, ISetup
{
    private CarePlan()
    {
    }

    public CarePlan(Guid id, Guid sumpId)
    {
        Id = id;
        SumpId = sumpId;
    }

    public Guid SumpId { get; private set; }

    public IReadOnlyCollection<CareStep> Steps => _steps;

    private readonly List<CareStep> _steps = [];

    public void Add(CareStep step) => _steps.Add(step);
}

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

    /// <summary>After a flag: of which parameter; null for any.</summary>
    public string? EventParameter { get; private set; }

    public DateOnly Anchor { get; private set; }

    public ClosedDayPolicy ClosedDays { get; private set; }

    /// <summary>For a test: what has to be measured.</summary>
    public IReadOnlyList<string> Parameters { get; private set; } = [];

    public int EstimatedMinutes { get; private set; }

    public bool IsStopped { get; private set; }

    public void Stop() => IsStopped = true;

    public ConditionInterval? Condition => FloorDays is { } floor && CeilingDays is { } ceiling && WantedFind is { } wanted ? new(floor, ceiling, wanted) : null;

    public void CountMonths(int months) => IntervalMonths = months;

    public void CountRunningHours(int hours) => IntervalHours = hours;

    public void FollowFinds(ConditionInterval condition)
    {
        ArgumentNullException.ThrowIfNull(condition);
        (FloorDays, CeilingDays, WantedFind) = (condition.FloorDays, condition.CeilingDays, condition.Wanted);
    }

    public void FollowFlagsOf(string? parameter) => EventParameter = parameter;

    /// <param name="weeklyHours">Of the sump's machine that runs most.</param>
    public CareStepFacts ToFacts(decimal weeklyHours) =>
        new(Id, Kind, Basis, IntervalHours is { } hours ? RunningHours.Days(hours, weeklyHours) : IntervalDays, Anchor, ClosedDays, Parameters)
        {
            IntervalMonths = IntervalMonths ?? 0,
            EventParameter = EventParameter ?? "",
        };

    public static string CauseOf(Guid stepId) => $"step:{stepId}";
}

internal sealed class CarePlanConfiguration : IEntityTypeConfiguration<CarePlan>, IEntityTypeConfiguration<CareStep>
{
    public void Configure(EntityTypeBuilder<CarePlan> builder)
    {
        builder.HasIndex(p => p.SumpId).IsUnique();
        builder.HasOne<Sump>().WithMany().HasForeignKey(p => p.SumpId).OnDelete(DeleteBehavior.Restrict);
        builder.HasMany(p => p.Steps).WithOne().HasForeignKey(s => s.CarePlanId).OnDelete(DeleteBehavior.Restrict);
        builder.Navigation(p => p.Steps).HasField("_steps").UsePropertyAccessMode(PropertyAccessMode.Field);
    }

    public void Configure(EntityTypeBuilder<CareStep> builder)
    {
        builder.Property(s => s.Parameters).HasConversion(JsonColumn.Converter<IReadOnlyList<string>>(), JsonColumn.Comparer<IReadOnlyList<string>>());
        builder.Property(s => s.IntervalMonths).CameLater();
        builder.Property(s => s.IntervalHours).CameLater();
        builder.Property(s => s.FloorDays).CameLater();
        builder.Property(s => s.CeilingDays).CameLater();
        builder.Property(s => s.WantedFind).CameLater();
        builder.Property(s => s.EventParameter).HasMaxLength(60).CameLater();
        builder.Ignore(s => s.Condition);
    }
}
