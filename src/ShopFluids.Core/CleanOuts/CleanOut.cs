using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.CleanOuts;

/// <summary>One draining and cleaning of a sump, step by step, from its plan to the first reading of the new charge. A charge has at most one that is open.</summary>
public sealed class CleanOut : Entity
{
    public const int MaximumReasonLength = 500;

    private CleanOut()
    {
    }

    public CleanOut(Guid id, Guid sumpId, Guid chargeId, DateTime begunAtUtc)
    {
        Id = id;
        SumpId = sumpId;
        ChargeId = chargeId;
        BegunAtUtc = begunAtUtc;
    }

    public Guid SumpId { get; private set; }

    /// <summary>The charge that is drained.</summary>
    public Guid ChargeId { get; private set; }

    public DateTime BegunAtUtc { get; private set; }

    public DateTime? EndedAtUtc { get; private set; }

    public Guid? EndedByPersonId { get; private set; }

    /// <summary>The charge that was filled at its end; null while it is open and when it was broken off.</summary>
    public Guid? NewChargeId { get; private set; }

    /// <summary>The first reading of the new charge.</summary>
    public Guid? ReadingId { get; private set; }

    /// <summary>Why it was broken off; null when it was not.</summary>
    public string? BrokenOffReason { get; private set; }

    public bool IsOpen => EndedAtUtc is null;

    /// <exception cref="InvalidOperationException">It has ended already.</exception>
    public void Finish(DateTime atUtc, Guid? personId, Guid newChargeId, Guid readingId)
    {
        End(atUtc, personId);
        (NewChargeId, ReadingId) = (newChargeId, readingId);
    }

    /// <param name="reason">Empty where the charge was drained in another way meanwhile.</param>
    /// <exception cref="InvalidOperationException">It has ended already.</exception>
    public void BreakOff(DateTime atUtc, Guid? personId, string reason)
    {
        End(atUtc, personId);
        BrokenOffReason = reason;
    }

    private void End(DateTime atUtc, Guid? personId)
    {
        if (!IsOpen)
        {
            throw new InvalidOperationException($"Clean-out {Id} ended already.");
        }

        (EndedAtUtc, EndedByPersonId) = (atUtc, personId);
    }
}

/// <summary>A step of it that was done: by whom, when, and what was noted. Noted again, the record keeps what stood there before.</summary>
public sealed class CleanOutStep : Entity
{
    private CleanOutStep()
    {
    }

    public CleanOutStep(Guid id, Guid cleanOutId, CleanOutStepKind kind, DateTime doneAtUtc, Guid personId, CleanOutNote noted)
    {
        Id = id;
        CleanOutId = cleanOutId;
        Kind = kind;
        DoneAtUtc = doneAtUtc;
        PersonId = personId;
        Noted = noted;
        Round = 1;
    }

    public Guid CleanOutId { get; private set; }

    public CleanOutStepKind Kind { get; private set; }

    /// <summary>When it was first ticked.</summary>
    public DateTime DoneAtUtc { get; private set; }

    /// <summary>Who said last what stands here.</summary>
    public Guid PersonId { get; private set; }

    public CleanOutNote Noted { get; private set; } = CleanOutNote.Empty;

    /// <summary>1 when it was ticked, one more each time it was put right: a page says which it has seen.</summary>
    public int Round { get; private set; }

    public void PutRight(CleanOutNote noted, Guid personId)
    {
        (Noted, PersonId) = (noted, personId);
        Round++;
    }
}

internal sealed class CleanOutConfiguration : IEntityTypeConfiguration<CleanOut>, IEntityTypeConfiguration<CleanOutStep>
{
    public void Configure(EntityTypeBuilder<CleanOut> builder)
    {
        builder.Property(c => c.BrokenOffReason).HasMaxLength(CleanOut.MaximumReasonLength);
        builder.Ignore(c => c.IsOpen);
        builder.HasIndex(c => c.ChargeId, "IX_CleanOuts_OneOpen").IsUnique().HasFilter("\"EndedAtUtc\" IS NULL");
        builder.HasIndex(c => new { c.SumpId, c.BegunAtUtc });
        builder.HasOne<Sump>().WithMany().HasForeignKey(c => c.SumpId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Charge>().WithMany().HasForeignKey(c => c.ChargeId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Charge>().WithMany().HasForeignKey(c => c.NewChargeId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Reading>().WithMany().HasForeignKey(c => c.ReadingId).OnDelete(DeleteBehavior.Restrict);
    }

    public void Configure(EntityTypeBuilder<CleanOutStep> builder)
    {
        builder.Property(s => s.Noted).HasConversion(JsonColumn.Converter<CleanOutNote>(), JsonColumn.Comparer<CleanOutNote>());
        builder.HasIndex(s => new { s.CleanOutId, s.Kind }).IsUnique();
        builder.HasOne<CleanOut>().WithMany().HasForeignKey(s => s.CleanOutId).OnDelete(DeleteBehavior.Restrict);
    }
}
