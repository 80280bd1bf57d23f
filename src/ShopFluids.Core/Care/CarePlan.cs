using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Sumps;

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
        builder.Property(s => s.AcceptedRiskPercent).CameLater();
        builder.Property(s => s.Shift).CameLater();
        builder.Property(s => s.Needs).CameLater().HasConversion(JsonColumn.Converter<StepNeeds>(), JsonColumn.Comparer<StepNeeds>());
        builder.Property(s => s.Template).HasMaxLength(60).CameLater();
        builder.Ignore(s => s.Condition);
        builder.Ignore(s => s.Risk);
    }
}
