using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

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

    public int IntervalDays { get; private set; }

    public DateOnly Anchor { get; private set; }

    public ClosedDayPolicy ClosedDays { get; private set; }

    /// <summary>For a test: what has to be measured.</summary>
    public IReadOnlyList<string> Parameters { get; private set; } = [];

    public int EstimatedMinutes { get; private set; }

    public bool IsStopped { get; private set; }

    public void Stop() => IsStopped = true;

    public CareStepFacts ToFacts() => new(Id, Kind, Basis, IntervalDays, Anchor, ClosedDays, Parameters);

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

    public void Configure(EntityTypeBuilder<CareStep> builder) =>
        builder.Property(s => s.Parameters).HasConversion(JsonColumn.Converter<IReadOnlyList<string>>(), JsonColumn.Comparer<IReadOnlyList<string>>());
}
