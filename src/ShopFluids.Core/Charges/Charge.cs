using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Charges;

/// <summary>One life of fluid in one sump, from fill to drain. A sump has at most one open charge.</summary>
public sealed class Charge : Entity, ISetup
{
    private Charge()
    {
    }

    public Charge(Guid id, Guid sumpId, Guid fluidId, int number, DateTime filledAtUtc, decimal volumeLitres)
    {
        Id = id;
        SumpId = sumpId;
        FluidId = fluidId;
        Number = number;
        FilledAtUtc = filledAtUtc;
        FillLitres = volumeLitres;
    }

    public Guid SumpId { get; private set; }

    public Guid FluidId { get; private set; }

    /// <summary>1, 2, 3 ... of this sump.</summary>
    public int Number { get; private set; }

    public DateTime FilledAtUtc { get; private set; }

    public DateTime? DrainedAtUtc { get; private set; }

    /// <summary>How much was filled, L.</summary>
    public decimal FillLitres { get; private set; }

    public void Drain(DateTime atUtc) => DrainedAtUtc = atUtc;
}

internal sealed class ChargeConfiguration : IEntityTypeConfiguration<Charge>
{
    public void Configure(EntityTypeBuilder<Charge> builder)
    {
        builder.HasIndex(c => new { c.SumpId, c.Number }).IsUnique();
        builder.HasIndex(c => c.SumpId, "IX_Charges_OneOpen").IsUnique().HasFilter("\"DrainedAtUtc\" IS NULL");
        builder.HasOne<Sump>().WithMany().HasForeignKey(c => c.SumpId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Fluid>().WithMany().HasForeignKey(c => c.FluidId).OnDelete(DeleteBehavior.Restrict);
    }
}
