using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;

namespace ShopFluids.Core.Stores;

public enum AdjustmentKind : short
{
    /// <summary>The drum was measured and holds another quantity than the books.</summary>
    Counted = 1,

    /// <summary>What was left was thrown away.</summary>
    Discarded = 2,
}

/// <summary>A change of what remains of a lot that no fill and no addition explains.</summary>
public sealed class LotAdjustment : Entity
{
    public const int MaximumReasonLength = 500;

    private LotAdjustment()
    {
    }

    public LotAdjustment(Guid id, Guid lotId, AdjustmentKind kind, decimal beforeLitres, decimal afterLitres, string reason, DateTime adjustedAtUtc, Guid? personId)
    {
        Id = id;
        LotId = lotId;
        Kind = kind;
        BeforeLitres = beforeLitres;
        AfterLitres = afterLitres;
        Reason = reason;
        AdjustedAtUtc = adjustedAtUtc;
        PersonId = personId;
    }

    public Guid LotId { get; private set; }

    public AdjustmentKind Kind { get; private set; }

    /// <summary>What the books said, L.</summary>
    public decimal BeforeLitres { get; private set; }

    /// <summary>What there is, L.</summary>
    public decimal AfterLitres { get; private set; }

    public string Reason { get; private set; } = "";

    public DateTime AdjustedAtUtc { get; private set; }

    public Guid? PersonId { get; private set; }
}

internal sealed class LotAdjustmentConfiguration : IEntityTypeConfiguration<LotAdjustment>
{
    public void Configure(EntityTypeBuilder<LotAdjustment> builder)
    {
        builder.HasIndex(a => new { a.LotId, a.AdjustedAtUtc });
        builder.Property(a => a.Reason).HasMaxLength(LotAdjustment.MaximumReasonLength);
        builder.HasOne<FluidLot>().WithMany().HasForeignKey(a => a.LotId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(t =>
        {
            t.HasCheckConstraint("CK_LotAdjustments_Before", Checks.NotNegative("BeforeLitres"));
            t.HasCheckConstraint("CK_LotAdjustments_After", Checks.NotNegative("AfterLitres"));
        });
    }
}
