using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Calculations.Additives;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Doses;

/// <summary>An additive put into a charge, with what its label allowed. Never changed.</summary>
public sealed class Dose : Entity
{
    public const int MaximumProductLength = 200;
    public const int MaximumReasonLength = 500;

    private Dose()
    {
    }

    /// <param name="noted">Checked, and as it is kept.</param>
    /// <param name="reached">What it comes to, in the measure.</param>
    /// <param name="againstLabelReason">Why it is noted all the same; null where it is as its label allows.</param>
    internal Dose(NoteDose noted, Guid sumpId, Guid chargeId, decimal reached, string? againstLabelReason, DateTime notedAtUtc, Guid? personId)
    {
        Id = noted.Id;
        SumpId = sumpId;
        ChargeId = chargeId;
        GivenAtUtc = noted.GivenAtUtc;
        Product = noted.Product;
        Kind = noted.Kind;
        (Amount, Unit) = (noted.Amount, noted.Unit);
        VolumeLitres = noted.VolumeLitres;
        DensityKgPerLitre = noted.DensityKgPerLitre;
        (Reached, Measure) = (reached, noted.KeptMeasure);
        (LabelMost, LabelHours, ReentryHours) = (noted.LabelMost, noted.LabelHours, noted.ReentryHours);
        Reason = noted.Reason;
        IsSafetyConfirmed = noted.IsSafetyConfirmed;
        AgainstLabelReason = againstLabelReason;
        NotedAtUtc = notedAtUtc;
        PersonId = personId;
    }

    public Guid SumpId { get; private set; }

    public Guid ChargeId { get; private set; }

    public DateTime GivenAtUtc { get; private set; }

    /// <summary>Its name as printed on its label.</summary>
    public string Product { get; private set; } = "";

    public DoseKind Kind { get; private set; }

    public decimal Amount { get; private set; }

    public DoseUnit Unit { get; private set; }

    /// <summary>The fluid for which it was reckoned, L.</summary>
    public decimal VolumeLitres { get; private set; }

    /// <summary>Of the product; only where the amount is by volume and the label by mass, or the other way round.</summary>
    public decimal? DensityKgPerLitre { get; private set; }

    /// <summary>That of the label, for what it allows and for what was reached.</summary>
    public DoseMeasure Measure { get; private set; }

    /// <summary>What this dose alone comes to in the fluid.</summary>
    public decimal Reached { get; private set; }

    /// <summary>Most that the label allows in one dose; null where it says nothing.</summary>
    public decimal? LabelMost { get; private set; }

    /// <summary>Least time between two doses by the label, h; null where it says nothing.</summary>
    public decimal? LabelHours { get; private set; }

    /// <summary>How long people keep away by the label, h; null where it says nothing.</summary>
    public decimal? ReentryHours { get; private set; }

    public string Reason { get; private set; } = "";

    /// <summary>Whoever gave it said to have label and safety data sheet at hand and to be trained.</summary>
    public bool IsSafetyConfirmed { get; private set; }

    /// <summary>Why a supervisor noted that it was given, against what its label allows; null where it is as it allows.</summary>
    public string? AgainstLabelReason { get; private set; }

    public DateTime NotedAtUtc { get; private set; }

    public Guid? PersonId { get; private set; }

    /// <summary>When people may come back; null where the label says nothing.</summary>
    public DateTime? ReentryUntilUtc => ReentryHours is { } hours ? GivenAtUtc.AddHours((double)hours) : null;

    /// <summary>Whether a command that carries its id says the same.</summary>
    internal bool Holds(NoteDose noted, Guid sumpId) =>
        SumpId == sumpId
        && GivenAtUtc == noted.GivenAtUtc
        && ProductNames.AreSame(Product, noted.Product)
        && Kind == noted.Kind
        && (AgainstLabelReason is null || AgainstLabelReason == noted.AgainstLabelReason)
        && (Amount, Unit, VolumeLitres, DensityKgPerLitre) == (noted.Amount, noted.Unit, noted.VolumeLitres, noted.DensityKgPerLitre)
        && (Measure, LabelMost, LabelHours, ReentryHours) == (noted.KeptMeasure, noted.LabelMost, noted.LabelHours, noted.ReentryHours)
        && (Reason, IsSafetyConfirmed) == (noted.Reason, noted.IsSafetyConfirmed);
}

internal sealed class DoseConfiguration : IEntityTypeConfiguration<Dose>
{
    public void Configure(EntityTypeBuilder<Dose> builder)
    {
        builder.Property(d => d.Product).HasMaxLength(Dose.MaximumProductLength);
        builder.Property(d => d.Reason).HasMaxLength(Dose.MaximumReasonLength);
        builder.Property(d => d.AgainstLabelReason).HasMaxLength(Dose.MaximumReasonLength).CameLater();
        builder.Ignore(d => d.ReentryUntilUtc);
        builder.HasIndex(d => new { d.SumpId, d.GivenAtUtc });
        builder.HasIndex(d => d.GivenAtUtc);
        builder.HasOne<Sump>().WithMany().HasForeignKey(d => d.SumpId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Charge>().WithMany().HasForeignKey(d => d.ChargeId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(t => t.HasCheckConstraint("CK_Doses_Amount", Checks.NotNegative("Amount")));
    }
}
