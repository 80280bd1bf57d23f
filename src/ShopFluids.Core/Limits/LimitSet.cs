using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Limits;

/// <summary>
/// One version of the limits of a fluid, or of one sump that needs its own. A change makes a new version from an instant
/// on, so that a past reading stays judged by what then applied.
/// </summary>
public sealed class LimitSet : Entity, ISetup
{
    private LimitSet()
    {
    }

    public LimitSet(Guid id, Guid? fluidId, Guid? sumpId, int number, DateTime validFromUtc, IReadOnlyList<ParameterLimits> limits)
    {
        Id = id;
        FluidId = fluidId;
        SumpId = sumpId;
        Number = number;
        ValidFromUtc = validFromUtc;
        Limits = limits;
    }

    public Guid? FluidId { get; private set; }

    public Guid? SumpId { get; private set; }

    /// <summary>1, 2, 3 ... of this fluid or sump.</summary>
    public int Number { get; private set; }

    public DateTime ValidFromUtc { get; private set; }

    public IReadOnlyList<ParameterLimits> Limits { get; private set; } = [];
}

internal sealed class LimitSetConfiguration : IEntityTypeConfiguration<LimitSet>
{
    public void Configure(EntityTypeBuilder<LimitSet> builder)
    {
        builder.HasIndex(l => new { l.FluidId, l.Number }).IsUnique();
        builder.HasIndex(l => new { l.SumpId, l.Number }).IsUnique();
        builder.Property(l => l.Limits).HasConversion(JsonColumn.Converter<IReadOnlyList<ParameterLimits>>(), JsonColumn.Comparer<IReadOnlyList<ParameterLimits>>());
        builder.HasOne<Fluid>().WithMany().HasForeignKey(l => l.FluidId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Sump>().WithMany().HasForeignKey(l => l.SumpId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(t => t.HasCheckConstraint("CK_LimitSets_Owner", "(\"FluidId\" IS NULL) <> (\"SumpId\" IS NULL)"));
    }
}
