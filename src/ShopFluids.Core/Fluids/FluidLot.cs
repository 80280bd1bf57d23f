using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Fluids;

/// <summary>A received quantity of one fluid; every litre drawn from it can be traced.</summary>
public sealed class FluidLot : Entity
{
    private FluidLot()
    {
    }

    public FluidLot(Guid id, Guid fluidId, string number, DateOnly receivedOn, DateOnly expiresOn, decimal receivedLitres, decimal? pricePerLitre)
    {
        Id = id;
        FluidId = fluidId;
        Number = number;
        NumberKey = KeyOf(number);
        ReceivedOn = receivedOn;
        ExpiresOn = expiresOn;
        ReceivedLitres = receivedLitres;
        RemainingLitres = receivedLitres;
        PricePerLitre = pricePerLitre;
    }

    public Guid FluidId { get; private set; }

    public string Number { get; private set; } = "";

    public string NumberKey { get; private set; } = "";

    public DateOnly ReceivedOn { get; private set; }

    /// <summary>The last day on which it may be used.</summary>
    public DateOnly ExpiresOn { get; private set; }

    public decimal ReceivedLitres { get; private set; }

    public decimal RemainingLitres { get; private set; }

    public decimal? PricePerLitre { get; private set; }

    public bool IsQuarantined { get; private set; }

    public string? QuarantineReason { get; private set; }

    /// <exception cref="InvalidOperationException">More is drawn than remains; the handler checks first and answers in words.</exception>
    public void Draw(decimal litres)
    {
        if (litres < 0 || litres > RemainingLitres)
        {
            throw new InvalidOperationException($"Lot {Number} holds {RemainingLitres} L; {litres} L cannot be drawn.");
        }

        RemainingLitres -= litres;
    }

    /// <summary>Sets what remains to what was counted or is left after throwing away.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Below nought, or more than was received.</exception>
    public void SetRemaining(decimal litres) => RemainingLitres = litres >= 0 && litres <= ReceivedLitres
        ? litres
        : throw new ArgumentOutOfRangeException(nameof(litres), litres, $"Of lot {Number} between 0 and {ReceivedLitres} L can remain.");

    public void Quarantine(string reason)
    {
        IsQuarantined = true;
        QuarantineReason = reason;
    }

    public void Release()
    {
        IsQuarantined = false;
        QuarantineReason = null;
    }

    /// <summary>The number as it is compared: its case and the blanks around it do not matter.</summary>
    public static string KeyOf(string number)
    {
        ArgumentNullException.ThrowIfNull(number);
        return number.Trim().ToUpperInvariant();
    }
}

internal sealed class FluidLotConfiguration : IEntityTypeConfiguration<FluidLot>
{
    public void Configure(EntityTypeBuilder<FluidLot> builder)
    {
        builder.Property(l => l.Number).HasMaxLength(60);
        builder.Property(l => l.NumberKey).HasMaxLength(60);
        builder.HasIndex(l => new { l.FluidId, l.NumberKey }).IsUnique();
        builder.Property(l => l.QuarantineReason).HasMaxLength(500);
        builder.Property(l => l.PricePerLitre).HasPrecision(18, 4);
        builder.HasOne<Fluid>().WithMany().HasForeignKey(l => l.FluidId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(t => t.HasCheckConstraint("CK_FluidLots_Remaining", Checks.NotNegative("RemainingLitres")));
    }
}
