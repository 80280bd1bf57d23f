using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;

namespace ShopFluids.Core.Charges;

/// <summary>Water and concentrate put into a charge, the concentrate from which lot.</summary>
public sealed class Addition : Entity
{
    private Addition()
    {
    }

    public Addition(Guid id, Guid chargeId, DateTime addedAtUtc, decimal waterLitres, decimal concentrateLitres, Guid? lotId, Guid? readingId, Guid personId, string? overrideReason, UnusualAddition unusual = UnusualAddition.None)
    {
        Id = id;
        ChargeId = chargeId;
        AddedAtUtc = addedAtUtc;
        WaterLitres = waterLitres;
        ConcentrateLitres = concentrateLitres;
        LotId = lotId;
        ReadingId = readingId;
        PersonId = personId;
        OverrideReason = overrideReason;
        Unusual = unusual == UnusualAddition.None ? null : unusual;
    }

    public Guid ChargeId { get; private set; }

    public DateTime AddedAtUtc { get; private set; }

    public decimal WaterLitres { get; private set; }

    public decimal ConcentrateLitres { get; private set; }

    public Guid? LotId { get; private set; }

    /// <summary>The reading whose recipe was followed.</summary>
    public Guid? ReadingId { get; private set; }

    public Guid PersonId { get; private set; }

    /// <summary>Why a supervisor allowed an expired or quarantined lot.</summary>
    public string? OverrideReason { get; private set; }

    /// <summary>What was unusual about it, and was noted all the same; null where nothing was, and in additions from before it was kept.</summary>
    public UnusualAddition? Unusual { get; private set; }

    /// <summary>Whether what was put in is the fill of its charge: at its moment, and by no reading's recipe.</summary>
    public static bool IsFill(DateTime addedAtUtc, Guid? readingId, DateTime filledAtUtc) => addedAtUtc == filledAtUtc && readingId is null;
}

/// <summary>Fluid taken out of a charge.</summary>
public sealed class Removal : Entity
{
    private Removal()
    {
    }

    public Removal(Guid id, Guid chargeId, DateTime removedAtUtc, decimal litres, string reason, Guid personId)
    {
        Id = id;
        ChargeId = chargeId;
        RemovedAtUtc = removedAtUtc;
        Litres = litres;
        Reason = reason;
        PersonId = personId;
    }

    public Guid ChargeId { get; private set; }

    public DateTime RemovedAtUtc { get; private set; }

    public decimal Litres { get; private set; }

    public string Reason { get; private set; } = "";

    public Guid PersonId { get; private set; }
}

internal sealed class AdditionConfiguration : IEntityTypeConfiguration<Addition>, IEntityTypeConfiguration<Removal>
{
    public void Configure(EntityTypeBuilder<Addition> builder)
    {
        builder.HasIndex(a => new { a.ChargeId, a.AddedAtUtc });
        builder.HasIndex(a => a.LotId);
        builder.Property(a => a.OverrideReason).HasMaxLength(500);
        builder.Property(a => a.Unusual).CameLater();
        builder.HasOne<Charge>().WithMany().HasForeignKey(a => a.ChargeId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<FluidLot>().WithMany().HasForeignKey(a => a.LotId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Reading>().WithMany().HasForeignKey(a => a.ReadingId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(t =>
        {
            t.HasCheckConstraint("CK_Additions_Water", Checks.NotNegative("WaterLitres"));
            t.HasCheckConstraint("CK_Additions_Concentrate", Checks.NotNegative("ConcentrateLitres"));
        });
    }

    public void Configure(EntityTypeBuilder<Removal> builder)
    {
        builder.HasIndex(r => new { r.ChargeId, r.RemovedAtUtc });
        builder.Property(r => r.Reason).HasMaxLength(200);
        builder.HasOne<Charge>().WithMany().HasForeignKey(r => r.ChargeId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(t => t.HasCheckConstraint("CK_Removals_Litres", Checks.NotNegative("Litres")));
    }
}
