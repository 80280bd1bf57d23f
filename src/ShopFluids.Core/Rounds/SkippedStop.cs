using System.Security.Cryptography;
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

    /// <summary>
    /// The id of what was said at one sump, where one answer was given for several: the same whenever the answer is sent again, and sorted
    /// by time as the answer's own id is.
    /// </summary>
    public static Guid IdAt(Guid answerId, Guid sumpId)
    {
        const int VersionPlace = 6;
        const int IdBytes = 16;
        Span<byte> both = stackalloc byte[2 * IdBytes];
        answerId.TryWriteBytes(both, bigEndian: true, out _);
        sumpId.TryWriteBytes(both[IdBytes..], bigEndian: true, out _);
        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(both, hash);

        // The time of the answer's id, then 9 bytes of the hash, behind the version and the variant of RFC 9562.
        var id = hash[..IdBytes];
        both[..VersionPlace].CopyTo(id);
        id[VersionPlace] = (byte)(0x70 | (id[VersionPlace] & 0x0f));
        id[8] = (byte)(0x80 | (id[8] & 0x3f));
        return new Guid(id, bigEndian: true);
    }
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
