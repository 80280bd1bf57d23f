using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Rounds;

public enum SkipReason : short
{
    MachineRunning = 1,
    CouldNotReach = 2,

    /// <summary>Said in words.</summary>
    Other = 3,
}

/// <summary>
/// A sump that was passed by on the round of one shop day, and why. It ends and moves no work: the test stays due, and only the
/// round of that day leads on to the next sump.
/// </summary>
public sealed class SkippedStop : Entity
{
    public const int MaximumWordsLength = 200;

    private SkippedStop()
    {
    }

    public SkippedStop(Guid id, Guid sumpId, DateOnly day, SkipReason reason, string words, DateTime skippedAtUtc, Guid? personId)
    {
        Id = id;
        SumpId = sumpId;
        Day = day;
        Reason = reason;
        Words = words;
        SkippedAtUtc = skippedAtUtc;
        PersonId = personId;
    }

    public Guid SumpId { get; private set; }

    /// <summary>The shop day of the round.</summary>
    public DateOnly Day { get; private set; }

    public SkipReason Reason { get; private set; }

    /// <summary>Empty where the reason says it all.</summary>
    public string Words { get; private set; } = "";

    public DateTime SkippedAtUtc { get; private set; }

    public Guid? PersonId { get; private set; }
}

internal sealed class SkippedStopConfiguration : IEntityTypeConfiguration<SkippedStop>
{
    public void Configure(EntityTypeBuilder<SkippedStop> builder)
    {
        builder.Property(s => s.Words).HasMaxLength(SkippedStop.MaximumWordsLength);
        builder.HasIndex(s => s.Day);
        builder.HasIndex(s => new { s.SumpId, s.SkippedAtUtc });
        builder.HasOne<Sump>().WithMany().HasForeignKey(s => s.SumpId).OnDelete(DeleteBehavior.Restrict);
    }
}
