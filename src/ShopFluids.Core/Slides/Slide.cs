using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Slides;

/// <summary>Where a slide is kept until it can be read.</summary>
public enum SlideIncubation : short
{
    /// <summary>30 °C.</summary>
    Incubator = 1,

    /// <summary>22 to 24 °C.</summary>
    Room = 2,
}

public enum SlideEnd : short
{
    /// <summary>The value read is a reading of the moment at which the slide was dipped.</summary>
    Read = 1,

    /// <summary>Nothing was read of it.</summary>
    Discarded = 2,
}

/// <summary>A dip slide that was dipped into the fluid and is read when what lives in the fluid has grown on it.</summary>
public sealed class Slide : Entity
{
    public const int MaximumReasonLength = 500;

    private Slide()
    {
    }

    public Slide(Guid id, Guid sumpId, Guid chargeId, string parameter, SlideIncubation incubation, DateTime dippedAtUtc, DateTime readFromUtc, DateTime readUntilUtc, DateTime startedAtUtc, Guid? personId)
    {
        Id = id;
        SumpId = sumpId;
        ChargeId = chargeId;
        Parameter = parameter;
        Incubation = incubation;
        DippedAtUtc = dippedAtUtc;
        ReadFromUtc = readFromUtc;
        ReadUntilUtc = readUntilUtc;
        StartedAtUtc = startedAtUtc;
        StartedByPersonId = personId;
    }

    public Guid SumpId { get; private set; }

    public Guid ChargeId { get; private set; }

    /// <summary>What its side measures.</summary>
    public string Parameter { get; private set; } = "";

    public SlideIncubation Incubation { get; private set; }

    public DateTime DippedAtUtc { get; private set; }

    public DateTime StartedAtUtc { get; private set; }

    public Guid? StartedByPersonId { get; private set; }

    /// <summary>Before it nothing has grown yet.</summary>
    public DateTime ReadFromUtc { get; private set; }

    /// <summary>After it the count comes out too high, if it can be told at all.</summary>
    public DateTime ReadUntilUtc { get; private set; }

    public SlideEnd? EndedHow { get; private set; }

    /// <summary>When it was read or discarded.</summary>
    public DateTime? EndedAtUtc { get; private set; }

    public Guid? EndedByPersonId { get; private set; }

    /// <summary>The reading that has its value.</summary>
    public Guid? ReadingId { get; private set; }

    /// <summary>Why it was discarded; empty where the charge was drained first.</summary>
    public string? EndReason { get; private set; }

    public bool IsOpen => EndedAtUtc is null;

    /// <summary>It was read after its window: the count is marked as such.</summary>
    public bool IsReadLate => EndedHow == SlideEnd.Read && EndedAtUtc > ReadUntilUtc;

    /// <exception cref="InvalidOperationException">It has ended already.</exception>
    public void Read(DateTime readAtUtc, Guid? personId, Guid readingId)
    {
        End(SlideEnd.Read, readAtUtc, personId);
        ReadingId = readingId;
    }

    /// <exception cref="InvalidOperationException">It has ended already.</exception>
    public void Discard(DateTime atUtc, Guid? personId, string reason)
    {
        End(SlideEnd.Discarded, atUtc, personId);
        EndReason = reason;
    }

    private void End(SlideEnd how, DateTime atUtc, Guid? personId)
    {
        if (!IsOpen)
        {
            throw new InvalidOperationException($"Slide {Id} ended already.");
        }

        (EndedHow, EndedAtUtc, EndedByPersonId) = (how, atUtc, personId);
    }
}

internal sealed class SlideConfiguration : IEntityTypeConfiguration<Slide>
{
    public void Configure(EntityTypeBuilder<Slide> builder)
    {
        builder.Property(s => s.Parameter).HasMaxLength(40);
        builder.Property(s => s.EndReason).HasMaxLength(Slide.MaximumReasonLength);
        builder.Ignore(s => s.IsOpen);
        builder.Ignore(s => s.IsReadLate);
        builder.HasIndex(s => new { s.SumpId, s.DippedAtUtc });
        builder.HasIndex(s => s.EndedAtUtc);
        builder.HasOne<Sump>().WithMany().HasForeignKey(s => s.SumpId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Charge>().WithMany().HasForeignKey(s => s.ChargeId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Reading>().WithMany().HasForeignKey(s => s.ReadingId).OnDelete(DeleteBehavior.Restrict);
    }
}
