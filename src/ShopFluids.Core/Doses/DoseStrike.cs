using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Doses;

/// <summary>Says that a dose was noted by mistake: it stays to be seen, struck through, and counts for nothing. Never changed.</summary>
public sealed class DoseStrike : Entity
{
    public const int MaximumReasonLength = Dose.MaximumReasonLength;

    private DoseStrike()
    {
    }

    internal DoseStrike(Guid id, Guid doseId, string reason, DateTime struckAtUtc, Guid? personId)
    {
        Id = id;
        DoseId = doseId;
        Reason = reason;
        StruckAtUtc = struckAtUtc;
        PersonId = personId;
    }

    public Guid DoseId { get; private set; }

    public string Reason { get; private set; } = "";

    public DateTime StruckAtUtc { get; private set; }

    public Guid? PersonId { get; private set; }
}

internal static class StandingDoses
{
    /// <summary>The doses that count.</summary>
    public static IQueryable<Dose> Of(ShopFluidsDbContext db) => db.Doses.Where(d => !db.DoseStrikes.Any(s => s.DoseId == d.Id));
}

internal sealed class DoseStrikeConfiguration : IEntityTypeConfiguration<DoseStrike>
{
    public void Configure(EntityTypeBuilder<DoseStrike> builder)
    {
        builder.Property(s => s.Reason).HasMaxLength(DoseStrike.MaximumReasonLength);
        builder.HasIndex(s => s.DoseId).IsUnique();
        builder.HasOne<Dose>().WithMany().HasForeignKey(s => s.DoseId).OnDelete(DeleteBehavior.Restrict);
    }
}
